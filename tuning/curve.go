package tuning

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"detent/tuning/unit"
)

// ForceTable is a damper's measured force by click and shaft speed, on a grid:
// Bump[i][j] is the force at Clicks[i] and Speeds[j]. Clicks are from full
// soft and rise, speeds rise from 0 or above, forces are never negative.
type ForceTable struct {
	Clicks  []int
	Speeds  []unit.Speed
	Bump    [][]unit.Force
	Rebound [][]unit.Force
	CSV     string // as it was given, to be kept and handed back
}

// Bounds of a force table file.
const (
	MaxTableLines = 5000
	MaxTableBytes = 1 << 20
)

// ForceHeader is the first line that a force table must have.
// ForceHeader is the first line of a force table.
const ForceHeader = "click,speed_mm_s,bump_n,rebound_n"

// slack is how much a force may fall from one click to a stiffer one before
// the table is refused: measured curves scatter.
const slack = 0.05

// sample is one line of a force table.
type sample struct {
	line          int
	click         int
	speed         unit.Speed
	bump, rebound unit.Force
}

// ParseForceTable reads a force table of one damper in CSV, with the columns of
// ForceHeader. A byte-order mark, CRLF and blank lines are passed over. It
// returns a TableFault for anything else.
func ParseForceTable(text string) (*ForceTable, error) {
	if len(text) > MaxTableBytes {
		return nil, TableFault{Why: TableTooLarge}
	}
	lines := strings.Split(strings.TrimPrefix(text, "\ufeff"), "\n")
	for len(lines) > 0 && strings.TrimSpace(lines[len(lines)-1]) == "" {
		lines = lines[:len(lines)-1]
	}
	if len(lines) > MaxTableLines {
		return nil, TableFault{Why: TooManyLines, Values: len(lines)}
	}
	if len(lines) == 0 || strings.ReplaceAll(strings.TrimSpace(lines[0]), " ", "") != ForceHeader {
		return nil, TableFault{Why: NoHeader, Line: 1}
	}
	var samples []sample
	for i, line := range lines[1:] {
		if line = strings.TrimSpace(line); line == "" {
			continue
		}
		s, err := parseSample(i+2, line)
		if err != nil {
			return nil, err
		}
		samples = append(samples, s)
	}
	table, err := gridOf(samples)
	if err != nil {
		return nil, err
	}
	table.CSV = strings.Join(lines, "\n") + "\n"
	return table, nil
}

func parseSample(number int, line string) (sample, error) {
	fields := strings.Split(line, ",")
	if len(fields) != 4 {
		return sample{}, TableFault{Why: WrongValues, Line: number, Values: len(fields)}
	}
	click, err := strconv.Atoi(strings.TrimSpace(fields[0]))
	if err != nil || click < 0 || click > MaxRange {
		return sample{}, TableFault{Why: BadClick, Line: number}
	}
	var values [3]float64
	for i, name := range []string{"speed", "bump force", "rebound force"} {
		v, err := strconv.ParseFloat(strings.TrimSpace(fields[i+1]), 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
			return sample{}, TableFault{Why: BadValue, Line: number, Column: name}
		}
		values[i] = v
	}
	if values[0] > 1e4 || values[1] > 1e6 || values[2] > 1e6 {
		return sample{}, TableFault{Why: HugeValue, Line: number}
	}
	return sample{number, click, unit.Speed(values[0] / 1000), unit.Force(values[1]), unit.Force(values[2])}, nil
}

// gridOf puts samples on one grid of speeds, and checks that each click's
// speeds rise and that forces do not fall as the click rises.
func gridOf(samples []sample) (*ForceTable, error) {
	byClick := map[int][]sample{}
	t := &ForceTable{}
	for _, s := range samples {
		run := byClick[s.click]
		if len(run) == 0 {
			t.Clicks = append(t.Clicks, s.click)
		} else if s.speed <= run[len(run)-1].speed {
			return nil, TableFault{Why: SpeedsFall, Line: s.line, Click: s.click}
		}
		byClick[s.click] = append(run, s)
		t.Speeds = append(t.Speeds, s.speed)
	}
	slices.Sort(t.Clicks)
	slices.Sort(t.Speeds)
	t.Speeds = slices.Compact(t.Speeds)
	for _, click := range t.Clicks {
		run := byClick[click]
		if len(run) < 2 {
			return nil, TableFault{Why: OneSpeed, Line: run[0].line, Click: click}
		}
	}
	if len(t.Clicks) == 0 {
		return nil, TableFault{Why: NoValues}
	}
	for i, click := range t.Clicks {
		run := byClick[click]
		bumps, rebounds := make([]unit.Force, len(t.Speeds)), make([]unit.Force, len(t.Speeds))
		for j, v := range t.Speeds {
			bumps[j] = forceAt(run, v, func(s sample) unit.Force { return s.bump })
			rebounds[j] = forceAt(run, v, func(s sample) unit.Force { return s.rebound })
		}
		t.Bump, t.Rebound = append(t.Bump, bumps), append(t.Rebound, rebounds)
		if i > 0 {
			if err := t.checkRise(i, run); err != nil {
				return nil, err
			}
		}
	}
	return t, nil
}

// checkRise refuses a click whose own samples lie more than the slack below
// the softer click before it.
func (t *ForceTable) checkRise(i int, run []sample) error {
	for _, s := range run {
		j := slices.Index(t.Speeds, s.speed)
		for _, d := range []struct {
			name         string
			softer, here unit.Force
		}{{"bump force", t.Bump[i-1][j], s.bump}, {"rebound force", t.Rebound[i-1][j], s.rebound}} {
			if d.here < d.softer*(1-slack) {
				return TableFault{Why: ForceFalls, Line: s.line, Column: d.name, Click: s.click, Softer: t.Clicks[i-1]}
			}
		}
	}
	return nil
}

// forceAt interpolates along one click's samples. Below the first sample the
// force goes to nothing at rest; above the last it keeps the last slope.
func forceAt(run []sample, v unit.Speed, force func(sample) unit.Force) unit.Force {
	at, _ := slices.BinarySearchFunc(run, v, func(s sample, v unit.Speed) int {
		switch {
		case s.speed < v:
			return -1
		case s.speed > v:
			return 1
		}
		return 0
	})
	if at == 0 {
		if run[0].speed == 0 {
			return force(run[0])
		}
		return force(run[0]) * unit.Force(v/run[0].speed)
	}
	at = min(at, len(run)-1)
	a, b := run[at-1], run[at]
	part := unit.Force((v - a.speed) / (b.speed - a.speed))
	return max(0, force(a)+(force(b)-force(a))*part)
}

// Fits returns a Refusal when the table has a click that no adjuster of the
// damper reaches.
func (t *ForceTable) Fits(d Damper) error {
	most := 0
	for _, a := range d.Adjusters() {
		most = max(most, d.Range[a])
	}
	if last := t.Clicks[len(t.Clicks)-1]; last > most {
		return TableFault{Why: MoreThanDamper, Click: last, Values: most}
	}
	return nil
}
