package store_test

import (
	"context"
	"fmt"
	"time"

	"detent/store"
	"detent/tuning"
	"detent/tuning/calendar"
)

// everything leaves rows of a person in every table there is. Tests of what
// holds for all tables fail when a new one is left out here.
func (r record) everything(who tuning.Who) {
	r.Helper()
	r.car(who, "Car of "+who.Name)
	c := r.theCase(who)
	days := r.count("events")
	r.once(who, func(ctx context.Context, b *store.Book) error {
		for _, leave := range []func(context.Context, *store.Book, tuning.Who, tuning.Case) error{tried, answered, searched, measured, coached} {
			if err := leave(ctx, b, who, c); err != nil {
				return err
			}
		}
		event := springDay(days) // one that is free
		event.Name, event.By = fmt.Sprintf("Day %d", days), who.Person
		event, err := b.SaveEvent(ctx, event)
		if err != nil {
			return err
		}
		if err := b.Enter(ctx, event, tuning.Entrant{Car: c.Car}); err != nil {
			return err
		}
		if _, err := b.SaveEventMessage(ctx, tuning.EventMessage{Event: event.ID, Sender: who.Person, Text: "Bring water, says " + who.Name + "."}); err != nil {
			return err
		}
		if _, err := b.SaveDraft(ctx, "/feel grip:lots"); err != nil {
			return err
		}
		due := calendar.Due{Kind: calendar.AskFeel, At: event.Ends, Until: event.Ends.Add(time.Hour)}
		return b.Schedule(ctx, event.ID, who.Person, []calendar.Due{due})
	})
}

// tried takes an advice, and takes it back.
func tried(ctx context.Context, b *store.Book, who tuning.Who, c tuning.Case) error {
	advice, err := b.SaveAdvice(ctx, tuning.Advice{Car: c.Car.ID, Complaint: tuning.Complaint{What: tuning.Hops}}, c.Setting)
	if err != nil {
		return err
	}
	change, err := b.Record(ctx, c.Car, tuning.Change{Reason: tuning.ByRemedy, Complaint: &advice.Complaint,
		Advice: advice.ID, Remedy: 1, Moves: turn(c, tuning.HighBump, -1)})
	if err != nil {
		return err
	}
	if _, err := b.Record(ctx, c.Car, tuning.Change{Reason: tuning.ByUndo, Undoes: change.ID, Moves: tuning.Backward(change.Moves)}); err != nil {
		return err
	}
	if _, err = b.SaveFeel(ctx, tuning.Feel{Car: c.Car.ID, Grip: 6, Notes: "said by " + who.Person}); err != nil {
		return err
	}
	if _, err = b.SaveCarNote(ctx, tuning.CarNote{Car: c.Car.ID, What: tuning.AboutTyres, Text: "fitted by " + who.Name}); err != nil {
		return err
	}
	_, err = b.SaveKept(ctx, tuning.Kept{Car: c.Car.ID, Name: "Kept by " + who.Name, Setting: c.Setting, Dampers: c.Car.Dampers})
	return err
}

// answered turns a remedy of the table and says how that felt, and edits the
// car's springs.
func answered(ctx context.Context, b *store.Book, _ tuning.Who, c tuning.Case) error {
	pushes := tuning.Complaint{What: tuning.Understeer}
	advice, err := tuning.Advise(c.Car, c.Setting, pushes, c.History, tuning.DefaultSizes)
	if err != nil {
		return err
	}
	if advice, err = b.SaveAdvice(ctx, advice, c.Setting); err != nil {
		return err
	}
	_, err = b.Record(ctx, c.Car, tuning.Change{Reason: tuning.ByRemedy, Complaint: &pushes, Advice: advice.ID, Remedy: 1, Moves: advice.Remedies[0].Moves})
	if err != nil {
		return err
	}
	if _, err := b.SaveFeel(ctx, tuning.Feel{Car: c.Car.ID, Grip: 6, Better: tuning.BetterYes}); err != nil {
		return err
	}
	return b.Refit(ctx, c.Car.ID, store.Tyres)
}

func searched(ctx context.Context, b *store.Book, _ tuning.Who, c tuning.Case) error {
	_, err := b.SaveSearch(ctx, tuning.Search{Car: c.Car.ID, Weather: tuning.Dry, Started: morning,
		Runs: []tuning.Run{{At: morning, Grip: 6, Clicks: 2}}})
	return err
}

func measured(ctx context.Context, b *store.Book, _ tuning.Who, c tuning.Case) error {
	table, err := tuning.ParseForceTable("click,speed_mm_s,bump_n,rebound_n\n0,0,0,0\n0,100,180,260\n")
	if err != nil {
		return err
	}
	return b.SaveCurve(ctx, c.Car, tuning.Front, table)
}

func coached(ctx context.Context, b *store.Book, who tuning.Who, _ tuning.Case) error {
	const coach = "person-coach"
	if err := b.SaveMember(ctx, tuning.Member{Person: coach, Name: "Ash"}); err != nil {
		return err
	}
	if _, err := b.SaveCoaching(ctx, tuning.Coaching{Coach: coach, Student: who.Person}); err != nil {
		return err
	}
	note, err := b.SaveNote(ctx, tuning.CoachNote{Coach: coach, Student: who.Person, Text: "Brake later."})
	if err != nil {
		return err
	}
	d := calendar.Due{Kind: calendar.CoachNote, About: note.ID, At: morning, Until: morning.Add(time.Hour)}
	if err := b.Deliver(ctx, d, who.Person); err != nil {
		return err
	}
	return b.Looked(ctx, coach, who.Person, "the log")
}
