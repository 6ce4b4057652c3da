package discord

import (
	"context"
	"strconv"

	"detent/bot"
)

// choice is a value offered while somebody types.
type choice struct {
	Name  string `json:"name"`
	Value any    `json:"value"`
}

type choices struct {
	Choices []choice `json:"choices"`
}

var noChoices = response{Type: choicesAnswer, Data: choices{[]choice{}}}

// maxChoice is the longest name and text of a choice, in characters.
const maxChoice = 100

// suggest offers what can stand where the person is typing. Suggestions that
// take too long are given up, since nobody waits for them.
func (t *turn) suggest(ctx context.Context) {
	ready := make(chan []bot.Suggestion, 1)
	thinking, cancel := context.WithTimeout(ctx, t.b.pace.suggest)
	defer cancel()
	go func() {
		defer func() {
			if p := recover(); p != nil {
				t.log().Error("suggesting broke", "err", p)
				ready <- nil
			}
		}()
		ask, err := t.b.ask(thinking, t.request)
		if err != nil {
			ready <- nil
			return
		}
		ready <- t.b.offers(thinking, ask, t.focus, t.typed)
	}()
	var found []bot.Suggestion
	select {
	case found = <-ready:
	case <-thinking.Done():
	}
	t.give(ctx, response{Type: choicesAnswer, Data: t.offer(found)}, "suggested")
}

// offer writes suggestions as the option's type wants them, and drops one that
// reads like another before it.
func (t *turn) offer(found []bot.Suggestion) choices {
	whole := false
	if c, ok := t.b.config.Lines.Lookup(t.line); ok {
		for _, o := range c.Options {
			whole = whole || o.Name == t.focus && o.Kind == bot.Whole
		}
	}
	list, names := choices{[]choice{}}, map[string]bool{}
	for _, s := range found[:min(len(found), bot.MaxSuggestions)] {
		c := choice{Name: clip(s.Label, maxChoice), Value: s.Value}
		if whole {
			n, err := strconv.Atoi(s.Value)
			if err != nil {
				continue
			}
			c.Value = n
		}
		if length(s.Value) <= maxChoice && c.Name != "" && !names[c.Name] {
			names[c.Name] = true
			list.Choices = append(list.Choices, c)
		}
	}
	return list
}
