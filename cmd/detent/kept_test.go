package main

import (
	"bytes"
	"encoding/gob"
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"detent/bot"
)

// filled sets every field under v, so that one that is not kept shows.
func filled(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		filled(v.Elem())
	case reflect.Struct:
		for i := range v.NumField() {
			filled(v.Field(i))
		}
	case reflect.Slice:
		if v.Type().Elem().Kind() == reflect.Uint8 {
			v.SetBytes([]byte("\x89PNG\x00"))
			return
		}
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		filled(v.Index(0))
		filled(v.Index(1))
	case reflect.String:
		v.SetString("16 → 13 \u0000 <b>")
	case reflect.Int:
		v.SetInt(3)
	case reflect.Float64:
		v.SetFloat(0.0123)
	case reflect.Bool:
		v.SetBool(true)
	default:
		panic("a reply holds a " + v.Kind().String())
	}
}

func TestKeptWhole(t *testing.T) {
	var reply bot.Reply
	filled(reflect.ValueOf(&reply).Elem())
	for _, want := range []bot.Reply{reply, {Title: "Noted"}, {}} {
		kept, err := pack(want)
		if err != nil {
			t.Fatal(err)
		}
		if !json.Valid(kept) {
			t.Errorf("an operator cannot read %.80q", kept)
		}
		got, err := unpack(kept)
		if diff := cmp.Diff(want, got); err != nil || diff != "" {
			t.Errorf("%v, want -, got +:\n%s", err, diff)
		}
	}
	if kept, _ := pack(bot.Reply{Title: "Noted"}); !strings.Contains(string(kept), `"title":"Noted"`) {
		t.Errorf("it is kept as %s", kept)
	}
}

// What earlier programs kept is still answered, in private.
func TestOlderRepliesAreRead(t *testing.T) {
	var want bot.Reply
	filled(reflect.ValueOf(&want).Elem())
	for _, want := range []bot.Reply{want, {Title: "Noted", Private: true}} {
		older := want
		older.Private = false
		var kept bytes.Buffer
		if err := gob.NewEncoder(&kept).Encode(older); err != nil {
			t.Fatal(err)
		}
		got, err := unpack(kept.Bytes())
		if diff := cmp.Diff(want, got); err != nil || diff != "" {
			t.Errorf("%v, want -, got +:\n%s", err, diff)
		}
	}
	if _, err := unpack([]byte("neither")); err == nil {
		t.Error("what is neither form is read")
	}
}
