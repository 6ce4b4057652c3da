package model

import (
	"fmt"
	"strings"

	"detent/bot"
	"detent/tuning"
	"detent/tuning/figures"
)

// Start is what the vehicle model makes of a start. The trade's start stands;
// the model stands beside it.
type Start struct {
	Inside  tuning.Setting // the nearest position inside the window; the start itself where it is
	Outside string         // says where an axle's start is outside its window, "" where none is
	model   figures.Model
	notes   []string
	rests   figures.Rests
	ratios  *bot.Picture
}

// StartOf asks the model about a start of a car whose dampers are known.
func StartOf(car tuning.Car, start tuning.Setting) Start {
	s := Start{Inside: start}
	var err error
	if s.model, err = figures.Of(car); err == nil {
		err = s.look(car, start)
	}
	if err != nil {
		return Start{Inside: start, notes: []string{silence(err)}}
	}
	s.rests = figures.OnDampers
	s.ratios = ratioPicture(s.model, car, start)
	return s
}

// startGivesAway is from where it is told that a start gives grip away.
const startGivesAway = 0.005

// look compares each axle's start with its window on a smooth track.
func (s *Start) look(car tuning.Car, start tuning.Setting) error {
	for axle := range tuning.Axle(tuning.Axles) {
		at := figures.ClicksOf(start, axle)
		f, err := s.model.Frequencies(axle)
		if err != nil {
			return err
		}
		r, err := s.model.Ratios(axle, at)
		if err != nil {
			return err
		}
		w, err := s.model.Window(axle, at, tuning.Smooth)
		if err != nil {
			return err
		}
		place := "inside the window of a smooth track"
		switch {
		case !w.Advises():
			place = "on a smooth track the model hardly tells its clicks apart"
		case w.AtStop():
			place = "no peak inside the range on a smooth track"
		case w.GivesAway > startGivesAway:
			place = "outside the window of a smooth track"
			s.move(car, axle, at, w)
		case !w.Contains(w.Today):
			place = "at the edge of the window of a smooth track"
		}
		s.notes = append(s.notes, fmt.Sprintf("%s: natural frequency %.2f Hz; %s; %s.",
			endWord(s.model, axle, figures.OnDampers), float64(f.Wheel), sayRatios(r), place))
	}
	return nil
}

// move offers the nearest position inside an axle's window.
func (s *Start) move(car tuning.Car, axle tuning.Axle, at figures.Clicks, w figures.Window) {
	inside := s.model.Along(axle, at, w.Inside())
	for _, corner := range axle.Corners() {
		s.Inside[corner] = inside
	}
	d := car.Dampers[axle]
	var places []string
	for _, a := range d.Adjusters() {
		places = append(places, d.Label(a)+" "+d.ShownBoth(a, inside[a]))
	}
	s.Outside += fmt.Sprintf("\n%s: the model sees this start outside the window; nearest inside: %s. The trade's start stands.",
		endWord(s.model, axle, figures.OnDampers), strings.Join(places, "; "))
}

// Show adds the model's side to a reply about a start.
func (s Start) Show(reply bot.Reply, imperial bool) bot.Reply {
	if s.Outside != "" {
		reply.Notes = append(reply.Notes, strings.Split(strings.TrimSpace(s.Outside), "\n")...)
	}
	reply.Notes = append(reply.Notes, s.notes...)
	reply.Picture = s.ratios
	return assuming(reply, s.model, s.rests, imperial)
}
