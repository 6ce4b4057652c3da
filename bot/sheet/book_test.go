package sheet

import (
	"bytes"
	"testing"
	"time"
)

func TestABookOfSheets(t *testing.T) {
	var out bytes.Buffer
	made := time.Date(2026, 5, 16, 9, 0, 0, 0, time.UTC)
	if err := WriteAll(&out, []Page{{Title: "One", Made: made}, {Title: "Two", Made: made}, {Title: "Three", Made: made}}); err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(out.Bytes(), []byte("/Type /Page\n")); n != 3 {
		t.Errorf("%d pages", n)
	}
}
