package figures

import (
	"fmt"
	"strings"

	"detent/tuning"
	"detent/tuning/unit"
)

// Rests is what an answer rests on. Each rests on all that those before it do.
type Rests int

// What answers can rest on.
const (
	OnNothing Rests = iota // there is no answer
	OnCorners              // masses, springs and tyres of the corners
	OnDampers              // and the dampers
	OnWhole                // and the whole car: tracks, heights, bars, links
)

// assumption is one thing that is assumed of a car.
type assumption struct {
	say   string
	rests Rests              // the first kind of answer that rests on it
	ends  [tuning.Axles]bool // whose answers do
	table bool               // it comes from the table of ordinary cars
}

var bothEnds = [tuning.Axles]bool{true, true}

// Assumed lists in sentences what answers of that kind assume of the car, in
// metric or imperial units: nothing when all of it is known.
func (m Model) Assumed(rests Rests, imperial bool) []string {
	var lines []string
	ordinary := false
	for _, a := range m.assumptions(imperial) {
		if a.rests <= rests {
			lines = append(lines, a.say)
			ordinary = ordinary || a.table
		}
	}
	if ordinary {
		return append([]string{m.source()}, lines...)
	}
	return lines
}

// Estimate tells whether answers of that kind about an axle rest on anything
// assumed.
func (m Model) Estimate(rests Rests, axle tuning.Axle) bool {
	for _, a := range m.assumptions(false) {
		if a.rests <= rests && a.ends[axle] {
			return true
		}
	}
	return false
}

func (m Model) assumptions(imperial bool) []assumption {
	all := append(m.assumedFigures(imperial), m.nominalOnes()...)
	for axle := range tuning.Axle(tuning.Axles) {
		if m.tables[axle] != nil {
			all = append(all, m.assumedOfTable(axle)...)
		} else if m.car.Dampers[axle].Fitted() {
			all = append(all, m.assumedOfNominal(axle)...)
		}
	}
	return append(all, assumption{"Roll centres, links and inertias of the body: estimate, nobody measures them.", OnWhole, bothEnds, true})
}

// assumedFigures puts the figures of both ends into one sentence.
func (m Model) assumedFigures(imperial bool) []assumption {
	var all []assumption
	said := map[string]bool{}
	for _, f := range m.assumed {
		if said[f.name] {
			continue
		}
		said[f.name] = true
		var parts []string
		a := assumption{rests: OnCorners, table: true}
		if f.body {
			a.rests = OnWhole
		}
		for _, g := range m.assumed {
			if g.name != f.name {
				continue
			}
			v, _ := g.value(&m.car)
			parts = append(parts, strings.TrimSpace(unit.Show(g.of, v, imperial)+" "+g.end))
			for axle := range tuning.Axle(tuning.Axles) {
				a.ends[axle] = a.ends[axle] || g.end == "" || g.end == axle.String()
			}
		}
		a.say = fmt.Sprintf("%s %s (estimate).", strings.ToUpper(f.name[:1])+f.name[1:], strings.Join(parts, ", "))
		all = append(all, a)
	}
	return all
}

// onDampers is an assumption about the dampers of one axle.
func onDampers(axle tuning.Axle, format string, args ...any) assumption {
	a := assumption{say: fmt.Sprintf(format, args...), rests: OnDampers}
	a.ends[axle] = true
	return a
}

// nominalOnes says which dampers are the nominal one, for want of a force table.
func (m Model) nominalOnes() []assumption {
	var ends []string
	a := assumption{rests: OnDampers}
	for axle := range tuning.Axle(tuning.Axles) {
		if a.ends[axle] = m.car.Dampers[axle].Fitted() && m.tables[axle] == nil; a.ends[axle] {
			ends = append(ends, axle.String())
		}
	}
	if len(ends) == 0 {
		return nil
	}
	a.say = "Dampers, " + strings.Join(ends, " and ") + ": damping ratio 0.25 at full soft to 1.0 at full hard, rebound twice bump, less than half beyond 60 mm/s of the shaft (estimate; a force table takes its place)."
	return []assumption{a}
}

// assumedOfNominal says what else is assumed where there is no force table.
func (m Model) assumedOfNominal(axle tuning.Axle) []assumption {
	var all []assumption
	fitted := m.car.Dampers[axle]
	if _, _, ok := turned(fitted, inBump); !ok {
		all = append(all, onDampers(axle, "The %s bump, which no click turns: that of a damper in the middle (estimate).", axle))
	}
	if fitted.Has(tuning.LowBump) {
		all = append(all, onDampers(axle, "The %s low-speed clicks turn the damping up to 60 mm/s of the shaft, the high-speed clicks the slope beyond (estimate).", axle))
	}
	return all
}

// assumedOfTable says what is assumed where a force table does not say it.
func (m Model) assumedOfTable(axle tuning.Axle) []assumption {
	var all []assumption
	softest, hardest := m.tables[axle].Range()
	fitted := m.car.Dampers[axle]
	for _, a := range fitted.Adjusters() {
		if softest > 0 || hardest < fitted.Range[a] {
			all = append(all, onDampers(axle, "The %s force table goes from click %d to %d: beyond that the nearest one holds (estimate).", axle, softest, hardest))
			break
		}
	}
	if fitted.Has(tuning.LowBump) {
		all = append(all, onDampers(axle, "The %s force table has one column of clicks: low-speed clicks are read up to 60 mm/s of the shaft, high-speed clicks beyond (estimate).", axle))
	}
	return all
}

// source says where the figures of the table come from.
func (m Model) source() string {
	say := "What is not known is taken from an ordinary car"
	if m.typicalOnly() {
		say = "Too little is known of this car, so the figures are those of an ordinary one"
	}
	return fmt.Sprintf("%s with its engine %s, %s drive and %s tyres, from memory and not measured.", say,
		map[tuning.Engine]string{tuning.FrontEngine: "in front", tuning.MidEngine: "amidships", tuning.RearEngine: "behind"}[m.car.Engine],
		map[tuning.Drive]string{tuning.FrontDrive: "front-wheel", tuning.RearDrive: "rear-wheel", tuning.FourDrive: "four-wheel"}[m.car.Drive],
		m.car.Tyre)
}

// typicalOnly tells whether the figures are a typical car's rather than this
// one's: neither mass nor springs are known.
func (m Model) typicalOnly() bool {
	unknown := map[string]bool{}
	for _, f := range m.assumed {
		unknown[f.option] = true
	}
	return unknown["mass"] && unknown["spring-front"] && unknown["spring-rear"]
}
