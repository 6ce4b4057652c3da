package discordtest

// Form is a form that the bot opened in front of a person.
type Form struct {
	r      *Reply
	shape  *formShape
	values map[string]string // by custom id
}

// Form is the form that answers; without one the test fails.
func (r *Reply) Form() *Form {
	r.p.tb.Helper()
	shape := look(r, func(i *interaction) *formShape { return i.form })
	if shape == nil {
		r.p.tb.Fatalf("discordtest: no form was opened by the %s", r.i)
	}
	f := &Form{r: r, shape: shape, values: map[string]string{}}
	for _, input := range f.Inputs() {
		f.values[input.CustomID] = input.Value
	}
	return f
}

// Title is what stands over the form.
func (f *Form) Title() string { return f.shape.Title }

// Inputs are the form's fields, in order, with what stands in them already.
func (f *Form) Inputs() []Component {
	var inputs []Component
	for input := range interactive(f.shape.Components) {
		inputs = append(inputs, input)
	}
	return inputs
}

// Fill writes into fields, named by label or custom id.
func (f *Form) Fill(values map[string]string) *Form {
	f.r.p.tb.Helper()
	for name, value := range values {
		found := false
		for _, input := range f.Inputs() {
			if input.Label == name || input.CustomID == name {
				f.values[input.CustomID] = value
				found = true
			}
		}
		if !found {
			f.r.p.tb.Fatalf("discordtest: the form %q has no field %q", f.shape.Title, name)
		}
	}
	return f
}

// Submit sends the form and waits for the answer. As in the person's client it
// cannot be sent with a required field empty or a text of the wrong length.
func (f *Form) Submit() *Reply {
	f.r.p.tb.Helper()
	rows := []any{}
	for _, input := range f.Inputs() {
		value := f.values[input.CustomID]
		n := length(value)
		needed := input.Required == nil || *input.Required
		if needed && n == 0 || n > 0 && n < input.MinLength || input.MaxLength > 0 && n > input.MaxLength {
			f.r.p.tb.Fatalf("discordtest: the field %q does not take %q", input.Label, value)
		}
		rows = append(rows, map[string]any{"type": compRow, "id": 1, "components": []any{
			map[string]any{"type": compTextInput, "id": 2, "custom_id": input.CustomID, "value": value},
		}})
	}
	var on *Message
	if f.r.i.source != nil {
		message := look(f.r, func(i *interaction) Message { return f.r.p.snapshot(i.source) })
		on = &message
	}
	return f.r.i.by.act(kindForm, map[string]any{"custom_id": f.shape.CustomID, "components": rows}, on).Wait()
}
