package discordtest

// checkForm holds a form against the rules. Labelled components (type 18) are
// good for the platform, but the client library drops what comes back of them,
// so only text inputs in rows pass here.
func checkForm(form *formShape) (b broken) {
	b.within(FormTitle, "the title", form.Title, 1, 45)
	b.within(CustomID, "the form's custom id", form.CustomID, 1, 100)
	if n := len(form.Components); n < 1 || n > 5 {
		b.add(FormRows, "%d rows", n)
	}
	for _, row := range form.Components {
		if row.Type != compRow || len(row.Components) != 1 || row.Components[0].Type != compTextInput {
			b.add(FormContent, "a component of type %d that is not a row with one text input", row.Type)
			continue
		}
		b.within(FormContent, "an input's label", row.Components[0].Label, 1, 45)
		b.within(FormContent, "an input's placeholder", row.Components[0].Placeholder, 0, 100)
	}
	b.customIDs(form.Components)
	return b
}

// formShape is the data of an answer that opens a form.
type formShape struct {
	CustomID   string      `json:"custom_id"`
	Title      string      `json:"title"`
	Components []Component `json:"components"`
}
