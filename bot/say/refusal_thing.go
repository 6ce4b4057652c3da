package say

import (
	"fmt"

	"detent/tuning"
)

// thingRefusal is about a thing that was named.
func thingRefusal(r tuning.Refusal) string {
	switch r := r.(type) {
	case tuning.Missing:
		return missing(r)
	case tuning.Gone:
		return gone(r)
	case tuning.Ambiguous:
		return ambiguous(r)
	case tuning.Taken:
		return taken(r)
	case tuning.NoSearch:
		return fmt.Sprintf("No grip search is under way on %s in the %s: begin one with /sweep start.", r.Car, r.Weather)
	}
	return ""
}

func missing(m tuning.Missing) string {
	switch m.What {
	case tuning.CarThing:
		if m.Name == "" {
			return "There is no car yet: add one with /car add."
		}
		return fmt.Sprintf("There is no car called %s: /car list shows the names.", Echo(m.Name))
	case tuning.EventThing:
		if m.Name == "" {
			return "No event is planned: an organiser plans one with /event add. To see a past one, name it."
		}
		return fmt.Sprintf("There is no event called %s: /event list shows the names.", Echo(m.Name))
	case tuning.MemberThing:
		return fmt.Sprintf("I know no %s in this club: they must have asked me something once.", Echo(m.Name))
	case tuning.AdviceThing:
		return fmt.Sprintf("There is no advice %s for your cars: ask again with /symptom.", m.Name)
	case tuning.KeptThing:
		return fmt.Sprintf("No clicks are saved as %s: /clicks saved shows what is.", Echo(m.Name))
	case tuning.SuggestionThing:
		return fmt.Sprintf("There is no suggestion %s waiting for you: /coach notes lists them.", m.Name)
	}
	return ""
}

func gone(g tuning.Gone) string {
	switch g.What {
	case tuning.CarThing:
		return g.Name + " is not there any more: /car list shows the cars."
	case tuning.EventThing:
		return g.Name + " is not there any more: /event list shows the events."
	case tuning.KeptThing:
		return "Those clicks are not saved any more: /clicks saved shows what is."
	}
	return ""
}

func ambiguous(a tuning.Ambiguous) string {
	switch {
	case a.What == tuning.CarThing && len(a.Among) > 1:
		return fmt.Sprintf("Which car: car:%q, car:%q or another? /car main names the one that is meant when none is said.", a.Among[0], a.Among[1])
	case a.What == tuning.MemberThing:
		return fmt.Sprintf("More than one member is called %s: name them by their key.", Echo(a.Name))
	}
	return ""
}

func taken(t tuning.Taken) string {
	switch t.What {
	case tuning.CarThing:
		return "You have a car of that name already: choose another name, or change that car with /car edit."
	case tuning.KeptThing:
		return "Clicks of this car are saved under that name already: choose another name."
	case tuning.EventThing:
		return fmt.Sprintf("An event called %s is planned already: choose another name, or change it with /event edit.", t.Name)
	}
	return ""
}

// eventRefusal is about an event and the cars in it.
func eventRefusal(r tuning.Refusal) string {
	switch r := r.(type) {
	case tuning.Overlaps:
		return r.Event + " runs at that time: choose other times, or cancel it first."
	case tuning.Cancelled:
		return r.Event + " is cancelled: /event list shows what is planned."
	case tuning.Full:
		return fmt.Sprintf("%s is full: all %d places are taken.", r.Event, r.Places)
	case tuning.Entered:
		return fmt.Sprintf("%s is entered in %s already.", r.Car, r.Event)
	case tuning.NotEntered:
		return fmt.Sprintf("%s is not entered in %s.", r.Car, r.Event)
	}
	return ""
}
