package main

import (
	"bytes"
	"encoding/gob"
	"encoding/json"

	"detent/bot"
)

// keptReply is the form in which a reply is kept with its request: JSON that an
// operator can read, with what the reply's own JSON form leaves out beside it.
type keptReply struct {
	Reply    bot.Reply `json:"reply"`
	Remedies []string  `json:"remedies,omitempty"` // what each says in one line
	Picture  []byte    `json:"picture,omitempty"`
	Files    [][]byte  `json:"files,omitempty"`
	View     bot.View  `json:"view,omitzero"` // how much of it is shown at once
}

// pack keeps a reply whole.
func pack(reply bot.Reply) ([]byte, error) {
	k := keptReply{Reply: reply, View: reply.View}
	for _, r := range reply.Remedies {
		k.Remedies = append(k.Remedies, r.Say)
	}
	if reply.Picture != nil {
		k.Picture = reply.Picture.PNG
	}
	for _, f := range reply.Files {
		k.Files = append(k.Files, f.Data)
	}
	return json.Marshal(k)
}

// unpack is the inverse of pack. It also reads the form of earlier programs,
// which did not keep whether a reply was private; those count as private.
func unpack(kept []byte) (bot.Reply, error) {
	var k keptReply
	if err := json.Unmarshal(kept, &k); err != nil {
		reply, older := unpackGob(kept)
		if older != nil {
			return bot.Reply{}, err
		}
		return reply, nil
	}
	k.Reply.View = k.View
	for i, say := range k.Remedies {
		k.Reply.Remedies[i].Say = say
	}
	if k.Reply.Picture != nil {
		k.Reply.Picture.PNG = k.Picture
	}
	for i, data := range k.Files {
		k.Reply.Files[i].Data = data
	}
	return k.Reply, nil
}

func unpackGob(kept []byte) (reply bot.Reply, err error) {
	err = gob.NewDecoder(bytes.NewReader(kept)).Decode(&reply)
	reply.Private = true
	return reply, err
}
