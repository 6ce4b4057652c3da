package typeset

import "testing"

func TestReadable(t *testing.T) {
	for _, c := range []struct {
		name, drawn string
		ok          bool
	}{
		{"Blue hatch", "Blue hatch", true},
		{"Größe Ωmega Тест", "Größe Ωmega Тест", true},
		{"רכב 車 सफेद", "רכב 車 सफेद", true},
		{"Blue 🏎\ufe0f", "Blue", true},           // a sign is no letter
		{"👨\u200d👩\u200d👧", "", false},           // nothing is left
		{"Blue\u202e hatch", "Blue hatch", true}, // direction is not the name's to change
		{"می\u200cخواهم", "می\u200cخواهم", true}, // a non-joiner is spelling
		{"\U00020000車", "", false},               // a Han character of Extension B
		{"㐀", "", false},                         // of Extension A
		{"ᚠᚢᚦ", "", false},                       // a script without a font
		{"Blue \U0001D400", "", false},           // a letter of mathematics
		{"\u1112\u1161\u11ab", "한", true},        // as some systems write Hangul
		{"", "", false},
	} {
		if drawn, ok := Readable(c.name); drawn != c.drawn || ok != c.ok {
			t.Errorf("%+q: %+q %t, want %+q %t", c.name, drawn, ok, c.drawn, c.ok)
		}
	}
}

func TestNeedsShaping(t *testing.T) {
	for text, want := range map[string]bool{
		"Größe 16 (14) → •": false, "Ωmega Тест": false, "e\u0301": true, "רכב": true, "車": true, "가": true, "कि": true, "\u2068a": true,
	} {
		if got := NeedsShaping(text); got != want {
			t.Errorf("%q: %t", text, got)
		}
	}
}

func TestIsolate(t *testing.T) {
	if got := Isolate("Blue 車"); got != "Blue 車" {
		t.Errorf("%+q", got)
	}
	if got := Isolate("רכב 2"); got != "\u2068רכב 2\u2069" || Plain(got) != "רכב 2" {
		t.Errorf("%+q", got)
	}
}

func TestName(t *testing.T) {
	for name, want := range map[string]string{"Blue 🏎": "Blue", "רכב": "\u2068רכב\u2069", "㐀": "The car"} {
		if got := Name(name, "The car"); got != want {
			t.Errorf("%+q: %+q, want %+q", name, got, want)
		}
	}
}

func TestSieve(t *testing.T) {
	if got := Sieve("Spring 🏁 day\n\u202eat \u2068רכב\u2069"); got != "Spring  day\nat \u2068רכב\u2069" {
		t.Errorf("%+q", got)
	}
}
