package notebook

import (
	"fmt"
	"slices"
	"time"

	"detent/bot/chart"
	"detent/bot/say"
	"detent/bot/typeset"
	"detent/tuning"
	"detent/tuning/calendar"
)

// moment is a change that a lane shows, or a run that was felt, and the event that
// it belongs to.
type moment struct {
	at     time.Time
	event  int64
	change int // its place in the year's changes, -1 for none
	feel   int // in its feels, -1 for none
}

// picture is the year as a picture: only what was turned has a lane.
func (y carYear) picture() chart.Season {
	lanes := slices.DeleteFunc(y.season.Lanes(y.car), func(l tuning.Lane) bool { return !l.Turned() })
	drawn := chart.Season{Title: fmt.Sprintf("%s in %d", typeset.Name(y.car.Name, "The car"), y.year)}
	for _, e := range y.season.Events {
		drawn.Events = append(drawn.Events, typeset.Name(e.Name, "an event"))
	}
	moments := y.moments(lanes)
	places := map[int]int{-1: 0} // of the changes
	at := 0
	for i := 0; i < len(moments); {
		m, day := moments[i], chart.Day{From: at, Event: y.numberOf(moments[i].event)}
		if day.Date = say.Day(m.at, y.zone); i > 0 && calendar.SameDay(moments[i-1].at, m.at, y.zone) {
			day.Date = ""
		}
		for ; i < len(moments) && moments[i].event == m.event && calendar.SameDay(moments[i].at, m.at, y.zone); i++ {
			switch m := moments[i]; {
			case m.change >= 0:
				at++
				places[m.change] = at
			case m.feel >= 0:
				at++
				f := y.season.Feels[m.feel]
				drawn.Grips = append(drawn.Grips, chart.Grip{At: at, Mark: f.Grip, Damp: y.season.Damp(f)})
			}
		}
		at++
		day.To = at
		drawn.Days = append(drawn.Days, day)
	}
	for _, l := range lanes {
		d := y.car.Dampers[l.Axle]
		lane := chart.Lane{Scale: chart.Scale{Name: say.Capital(l.Axle.String()) + " " + d.Label(l.Adjuster),
			Clicks: d.Range[l.Adjuster], FromHard: d.Count == tuning.FromHard}}
		for _, s := range l.Steps {
			lane.Steps = append(lane.Steps, chart.Step{At: places[s.Change], Left: s.Left, Right: s.Right})
		}
		drawn.Lanes = append(drawn.Lanes, lane)
	}
	return drawn
}

// moments are what the picture shows, in order: the changes of some lanes, the
// runs, and where an event has neither, its beginning.
func (y carYear) moments(lanes []tuning.Lane) []moment {
	var all []moment
	there := map[int64]bool{0: true}
	for i, c := range y.season.Changes {
		shows := func(l tuning.Lane) bool {
			return slices.ContainsFunc(l.Steps, func(s tuning.Step) bool { return s.Change == i })
		}
		if slices.ContainsFunc(lanes, shows) {
			all = append(all, moment{c.At, c.Event, i, -1})
			there[c.Event] = true
		}
	}
	for i, f := range y.season.Feels {
		all = append(all, moment{f.At, f.Event, -1, i})
		there[f.Event] = true
	}
	for _, e := range y.season.Events {
		if !there[e.ID] {
			all = append(all, moment{e.Starts, e.ID, -1, -1})
		}
	}
	slices.SortStableFunc(all, func(a, b moment) int { return a.at.Compare(b.at) })
	for len(all) > 0 && all[0].change >= 0 && y.season.Changes[all[0].change].Reason == tuning.ByFitting {
		all = all[1:] // the lanes begin with it
	}
	return all
}

// numberOf is the number of an event on the page, 0 for none.
func (y carYear) numberOf(event int64) int {
	return 1 + slices.IndexFunc(y.season.Events, func(e tuning.Event) bool { return e.ID == event })
}
