package store

import (
	"bytes"
	"encoding/json"
	"fmt"

	"detent/tuning"
)

// The JSON forms of advice and complaints, with axles, corners and adjusters as
// words. Older rows hold numbers instead, in the order of these lists, which
// never change.
var (
	numberedAxles     = []string{"front", "rear"}
	numberedCorners   = []string{"FL", "FR", "RL", "RR"}
	numberedAdjusters = []string{"bump", "low-bump", "high-bump", "rebound", "low-rebound", "high-rebound"}
)

type (
	complaintJSON struct {
		What    tuning.What    `json:"what"`
		Where   tuning.Where   `json:"where,omitempty"`
		Axle    *axleWord      `json:"axle,omitempty"`
		Weather tuning.Weather `json:"weather,omitempty"`
	}

	remedyJSON struct {
		tuning.Remedy
		Moves []moveJSON `json:"moves"` // in place of the embedded ones
	}

	moveJSON struct {
		Corner   cornerWord   `json:"corner"`
		Adjuster adjusterWord `json:"adjuster"`
		From     int          `json:"from"`
		To       int          `json:"to"`
	}

	// settingJSON leaves out the adjusters that stand at full soft, 0.
	settingJSON map[cornerWord]map[adjusterWord]int
)

func complaintToJSON(c *tuning.Complaint) *complaintJSON {
	if c == nil {
		return nil
	}
	return &complaintJSON{c.What, c.Where, (*axleWord)(c.Axle), c.Weather}
}

func (c complaintJSON) complaint() tuning.Complaint {
	return tuning.Complaint{What: c.What, Where: c.Where, Axle: (*tuning.Axle)(c.Axle), Weather: c.Weather}
}

// Scan reads a complaint from a column.
func (c *complaintJSON) Scan(from any) error {
	text, ok := from.([]byte)
	if !ok {
		return fmt.Errorf("a complaint comes as %T", from)
	}
	return json.Unmarshal(text, c)
}

func remediesToJSON(remedies []tuning.Remedy) []remedyJSON {
	var list []remedyJSON
	for _, r := range remedies {
		kept := remedyJSON{Remedy: r}
		for _, m := range r.Moves {
			kept.Moves = append(kept.Moves, moveJSON{cornerWord(m.Corner), adjusterWord(m.Adjuster), m.From, m.To})
		}
		list = append(list, kept)
	}
	return list
}

func remediesOf(list []remedyJSON) []tuning.Remedy {
	var remedies []tuning.Remedy
	for _, kept := range list {
		r := kept.Remedy
		for _, m := range kept.Moves {
			r.Moves = append(r.Moves, tuning.Move{Corner: tuning.Corner(m.Corner), Adjuster: tuning.Adjuster(m.Adjuster), From: m.From, To: m.To})
		}
		remedies = append(remedies, r)
	}
	return remedies
}

func settingToJSON(at tuning.Setting) settingJSON {
	kept := settingJSON{}
	for corner, adjusters := range at {
		for adjuster, clicks := range adjusters {
			if clicks == 0 {
				continue
			}
			if kept[cornerWord(corner)] == nil {
				kept[cornerWord(corner)] = map[adjusterWord]int{}
			}
			kept[cornerWord(corner)][adjusterWord(adjuster)] = clicks
		}
	}
	return kept
}

func (s settingJSON) setting() (at tuning.Setting) {
	for corner, adjusters := range s {
		for adjuster, clicks := range adjusters {
			at[corner][adjuster] = clicks
		}
	}
	return at
}

// UnmarshalJSON reads the form of older rows too: a list of four corners of six
// adjusters.
func (s *settingJSON) UnmarshalJSON(text []byte) error {
	if !bytes.HasPrefix(bytes.TrimSpace(text), []byte("[")) {
		return json.Unmarshal(text, (*map[cornerWord]map[adjusterWord]int)(s))
	}
	var numbered [][]int
	if err := json.Unmarshal(text, &numbered); err != nil {
		return err
	}
	*s = settingJSON{}
	for i, adjusters := range numbered {
		corner, err := numberedWord[cornerWord](numberedCorners, cornerWords, i)
		if err != nil {
			return err
		}
		(*s)[corner] = map[adjusterWord]int{}
		for j, clicks := range adjusters {
			adjuster, err := numberedWord[adjusterWord](numberedAdjusters, adjusterWords, j)
			if err != nil {
				return err
			}
			(*s)[corner][adjuster] = clicks
		}
	}
	return nil
}

func (a axleWord) MarshalText() ([]byte, error)     { return []byte(axleWords[a]), nil }
func (c cornerWord) MarshalText() ([]byte, error)   { return []byte(cornerWords[c]), nil }
func (a adjusterWord) MarshalText() ([]byte, error) { return []byte(adjusterWords[a]), nil }

func (a *axleWord) UnmarshalJSON(text []byte) (err error) {
	*a, err = wordOrNumber[axleWord](numberedAxles, axleWords, text)
	return err
}

func (c *cornerWord) UnmarshalJSON(text []byte) (err error) {
	*c, err = wordOrNumber[cornerWord](numberedCorners, cornerWords, text)
	return err
}

func (a *adjusterWord) UnmarshalJSON(text []byte) (err error) {
	*a, err = wordOrNumber[adjusterWord](numberedAdjusters, adjusterWords, text)
	return err
}

// wordOrNumber reads a word of today's list, or a number as older rows have it.
func wordOrNumber[T ~int](numbered, today []string, text []byte) (T, error) {
	var number int
	if json.Unmarshal(text, &number) == nil {
		return numberedWord[T](numbered, today, number)
	}
	var word string
	if err := json.Unmarshal(text, &word); err != nil {
		return 0, err
	}
	return index[T](today, word)
}

func numberedWord[T ~int](numbered, today []string, number int) (T, error) {
	if number < 0 || number >= len(numbered) {
		return 0, fmt.Errorf("%d is the number of none of %q", number, numbered)
	}
	return index[T](today, numbered[number])
}
