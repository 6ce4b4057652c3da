package figures

import (
	"detent/tuning"
	"detent/tuning/unit"
)

// Rests is what an answer rests on. Each level includes those before it.
type Rests int

// What answers can rest on.
const (
	OnNothing Rests = iota // there is no answer
	OnCorners              // masses, springs and tyres of the corners
	OnDampers              // and the dampers
	OnWhole                // and the whole car: tracks, heights, bars, links
)

// Assumption is one thing that is assumed of a car, without the words for it.
type Assumption struct {
	Kind    AssumptionKind
	Name    string             // of a figure, without the end of the car
	Values  []Figure           // of both ends where it has two
	Ends    [tuning.Axles]bool // whose answers rest on it
	Between [2]int             // clicks from full soft
	Layout  Layout             // of the ordinary car
}

// Layout is what an ordinary car is picked by.
type Layout struct {
	Engine tuning.Engine
	Drive  tuning.Drive
	Tyre   tuning.Tyre
}

// AssumptionKind is what sort of thing is assumed.
type AssumptionKind string

// What is assumed, and which fields of Assumption it fills beside Ends.
const (
	OrdinaryFigures AssumptionKind = "ordinary figures"  // Layout: what is not known is that of an ordinary car
	OrdinaryCar     AssumptionKind = "ordinary car"      // Layout: the same where too little is known to speak of this car
	OneFigure       AssumptionKind = "figure"            // Name, Values
	NominalDampers  AssumptionKind = "nominal dampers"   // for want of a force table
	BumpInMiddle    AssumptionKind = "bump in middle"    // bump that no click turns
	ClicksBySpeed   AssumptionKind = "clicks by speed"   // which clicks turn what speeds of the nominal damper
	TableEnds       AssumptionKind = "table ends"        // Between: the clicks of the force table, short of the damper's
	OneColumn       AssumptionKind = "one column"        // which clicks of the damper its force table's are
	RigidBody       AssumptionKind = "centres and links" // and inertias of the body
)

// Figure is a figure of a car, or of an end of it.
type Figure struct {
	Of    unit.Dimension
	Value float64 // SI
	End   string  // "front", "rear", or "" for the whole car
}

// assumption is an Assumption with the answers that rest on it.
type assumption struct {
	Assumption
	rests Rests // the first kind
	table bool  // it comes from the table of ordinary cars
}

var bothEnds = [tuning.Axles]bool{true, true}

// Assumed lists what answers of that kind assume of the car: nothing when all of
// it is known.
func (m Model) Assumed(rests Rests) []Assumption {
	var all []Assumption
	ordinary := false
	for _, a := range m.assumptions() {
		if a.rests <= rests {
			all = append(all, a.Assumption)
			ordinary = ordinary || a.table
		}
	}
	if !ordinary {
		return all
	}
	source := Assumption{Kind: OrdinaryFigures, Ends: bothEnds, Layout: Layout{m.car.Engine, m.car.Drive, m.car.Tyre}}
	if m.typicalOnly() {
		source.Kind = OrdinaryCar
	}
	return append([]Assumption{source}, all...)
}

// Estimate tells whether answers of that kind about an axle rest on anything
// assumed.
func (m Model) Estimate(rests Rests, axle tuning.Axle) bool {
	for _, a := range m.assumptions() {
		if a.rests <= rests && a.Ends[axle] {
			return true
		}
	}
	return false
}

func (m Model) assumptions() []assumption {
	all := append(m.assumedFigures(), m.nominalOnes()...)
	for axle := range tuning.Axle(tuning.Axles) {
		if m.tables[axle] != nil {
			all = append(all, m.assumedOfTable(axle)...)
		} else if m.car.Dampers[axle].Fitted() {
			all = append(all, m.assumedOfNominal(axle)...)
		}
	}
	return append(all, assumption{Assumption{Kind: RigidBody, Ends: bothEnds}, OnWhole, true})
}

// assumedFigures makes the figures of both ends one assumption.
func (m Model) assumedFigures() []assumption {
	var all []assumption
	listed := map[string]bool{}
	for _, f := range m.assumed {
		if listed[f.name] {
			continue
		}
		listed[f.name] = true
		a := assumption{Assumption{Kind: OneFigure, Name: f.name}, OnCorners, true}
		if f.body {
			a.rests = OnWhole
		}
		for _, g := range m.assumed {
			if g.name != f.name {
				continue
			}
			v, _ := g.value(&m.car)
			a.Values = append(a.Values, Figure{g.of, v, g.end})
			for axle := range tuning.Axle(tuning.Axles) {
				a.Ends[axle] = a.Ends[axle] || g.end == "" || g.end == axle.String()
			}
		}
		all = append(all, a)
	}
	return all
}

// onDampers is an assumption about the dampers of one axle.
func onDampers(axle tuning.Axle, kind AssumptionKind) assumption {
	a := assumption{Assumption{Kind: kind}, OnDampers, false}
	a.Ends[axle] = true
	return a
}

// nominalOnes tells which dampers are the nominal one, for want of a force table.
func (m Model) nominalOnes() []assumption {
	a := assumption{Assumption{Kind: NominalDampers}, OnDampers, false}
	for axle := range tuning.Axle(tuning.Axles) {
		a.Ends[axle] = m.car.Dampers[axle].Fitted() && m.tables[axle] == nil
	}
	if a.Ends == [tuning.Axles]bool{} {
		return nil
	}
	return []assumption{a}
}

// assumedOfNominal tells what else is assumed where there is no force table.
func (m Model) assumedOfNominal(axle tuning.Axle) []assumption {
	var all []assumption
	fitted := m.car.Dampers[axle]
	if _, _, ok := adjustersTurning(fitted, inBump); !ok {
		all = append(all, onDampers(axle, BumpInMiddle))
	}
	if fitted.Has(tuning.LowBump) {
		all = append(all, onDampers(axle, ClicksBySpeed))
	}
	return all
}

// assumedOfTable tells what is assumed where a force table does not say it.
func (m Model) assumedOfTable(axle tuning.Axle) []assumption {
	var all []assumption
	softest, hardest := m.tables[axle].Range()
	fitted := m.car.Dampers[axle]
	for _, a := range fitted.Adjusters() {
		if softest > 0 || hardest < fitted.Range[a] {
			ends := onDampers(axle, TableEnds)
			ends.Between = [2]int{softest, hardest}
			all = append(all, ends)
			break
		}
	}
	if fitted.Has(tuning.LowBump) {
		all = append(all, onDampers(axle, OneColumn))
	}
	return all
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
