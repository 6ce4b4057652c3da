package store

import (
	"encoding/json"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"detent/tuning"
)

// toldForms are a complaint, a remedy and a setting as they are kept, and as
// older programs kept them.
var (
	toldComplaint = `{"what":"bottoms","axle":"rear"}`
	toldRemedies  = `[{"kind":"turn","why":"w","watch":"x","confidence":"weaker","moves":[{"corner":"RL","adjuster":"rebound","from":3,"to":5}]}]`
	toldSetting   = `{"FL":{"bump":7,"rebound":3},"RR":{"low-bump":1}}`

	numberedComplaint = `{"what":"bottoms","axle":1}`
	numberedRemedies  = `[{"kind":"turn","why":"w","watch":"x","confidence":"weaker","moves":[{"corner":2,"adjuster":3,"from":3,"to":5}]}]`
	numberedSetting   = `[[7,0,0,3,0,0],[0,0,0,0,0,0],[0,0,0,0,0,0],[0,1,0,0,0,0]]`
)

// read reads the three forms, and returns them with every number as the word it
// stands for today.
func readTold(t *testing.T, complaint, remedies, setting string) (axle string, moves []string, at map[string]int) {
	t.Helper()
	var c complaintJSON
	var r []remedyJSON
	var s settingJSON
	for text, into := range map[string]any{complaint: &c, remedies: &r, setting: &s} {
		if err := json.Unmarshal([]byte(text), into); err != nil {
			t.Fatalf("%s: %v", text, err)
		}
	}
	for _, m := range remediesOf(r)[0].Moves {
		moves = append(moves, cornerWords[m.Corner], adjusterWords[m.Adjuster])
	}
	at = map[string]int{}
	for corner, adjusters := range s.setting() {
		for adjuster, clicks := range adjusters {
			if clicks != 0 {
				at[cornerWords[corner]+" "+adjusterWords[adjuster]] = clicks
			}
		}
	}
	return axleWords[*c.complaint().Axle], moves, at
}

// What is kept means the same when the constants of the trade's words come in
// another order, and so does what older programs kept.
func TestToldInWords(t *testing.T) {
	check := func(t *testing.T) {
		for _, form := range [][3]string{{toldComplaint, toldRemedies, toldSetting}, {numberedComplaint, numberedRemedies, numberedSetting}} {
			axle, moves, at := readTold(t, form[0], form[1], form[2])
			if axle != "rear" || !slices.Equal(moves, []string{"RL", "rebound"}) {
				t.Errorf("%s and %s are read as %s and %s", form[0], form[1], axle, moves)
			}
			if diff := cmp.Diff(map[string]int{"FL bump": 7, "FL rebound": 3, "RR low-bump": 1}, at); diff != "" {
				t.Errorf("%s: want -, got +:\n%s", form[2], diff)
			}
		}
	}
	t.Run("as it is", check)
	for _, list := range []*[]string{&axleWords, &cornerWords, &adjusterWords} {
		before := *list
		t.Cleanup(func() { *list = before })
		*list = slices.Clone(before)
		slices.Reverse(*list)
	}
	t.Run("the other way round", check)
}

func TestToldRoundTrip(t *testing.T) {
	rear := tuning.Rear
	complaint := tuning.Complaint{What: tuning.Bottoms, Axle: &rear}
	remedies := []tuning.Remedy{{Kind: tuning.TurnClicks, Why: "w", Watch: "x", Confidence: tuning.WeakerPractice,
		Moves: []tuning.Move{{Corner: tuning.RL, Adjuster: tuning.Rebound, From: 3, To: 5}}}}
	var at tuning.Setting
	at[tuning.FL][tuning.Bump], at[tuning.FL][tuning.Rebound], at[tuning.RR][tuning.LowBump] = 7, 3, 1
	for want, value := range map[string]any{
		toldComplaint: complaintToJSON(&complaint), toldRemedies: remediesToJSON(remedies), toldSetting: settingToJSON(at),
	} {
		got, err := json.Marshal(value)
		if err != nil || string(got) != want {
			t.Errorf("%s, %v; want %s", got, err, want)
		}
	}
	var s settingJSON
	if err := json.Unmarshal([]byte(toldSetting), &s); err != nil || s.setting() != at {
		t.Errorf("the setting is read as %v, %v", s, err)
	}
	// Older rows hold the sentences of today's words.
	kept := []remedyJSON{}
	if err := json.Unmarshal([]byte(`[{"kind":"turn","why":"Holds the body down once it has moved.","watch":"more dive","confidence":"weaker","moves":[]}]`), &kept); err != nil {
		t.Fatal(err)
	}
	if old := remediesOf(kept)[0]; old.Why != "Holds the body down once it has moved." || old.Watch != "more dive" {
		t.Errorf("an older remedy is read as %+v", old)
	}
	for _, wrong := range []string{`{"XX":{"bump":1}}`, `{"FL":{"bumps":1}}`, `[[0],[0],[0],[0],[0]]`, `[[0,0,0,0,0,0,0]]`} {
		if json.Unmarshal([]byte(wrong), &s) == nil {
			t.Errorf("%s is read", wrong)
		}
	}
	if c := complaintToJSON(nil); c != nil {
		t.Error("no complaint is kept as one")
	}
}
