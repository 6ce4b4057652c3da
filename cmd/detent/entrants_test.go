package main

import (
	"archive/zip"
	"io"
	"strings"
	"testing"
)

// exported is a file of a person's export.
func exported(t *testing.T, who paddock, name string) string {
	t.Helper()
	archive, err := zip.OpenReader(who.does(`/me export`).Files[0].File)
	if err != nil {
		t.Fatal(err)
	}
	defer archive.Close()
	f, err := archive.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	text, err := io.ReadAll(f)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// TestEntrantsOfOneClub asks for the entrants in two clubs, and after somebody
// has left for good.
func TestEntrantsOfOneClub(t *testing.T) {
	robin, olga := seasonPaddock(t)
	robin.does(`/event enter sheet:no`)
	robin.as("--as", "Kim").blueHatch().does(`/event enter`)
	list := olga.does(`/event entrants`)
	if !list.Private || !strings.Contains(list.Text, "Robin: Blue hatch, two-way, 30 clicks from hard; no sheet\nKim: Blue hatch, two-way, 30 clicks from hard") ||
		!strings.Contains(list.Text, "Dampers: 2 two-way.\n1 of 2 want a sheet.") {
		t.Errorf("private %t:\n%s", list.Private, list.Text)
	}
	robin.refuses("forbidden", "coaches", `/event entrants`)
	elsewhere := olga.as("--club", "meadow")
	elsewhere.refuses("not-found", "No event", `/event entrants`)
	elsewhere.refuses("not-found", "no event called", `/event entrants name:"Spring day"`)
	robin.does(`/event enter sheet:yes`)
	if list := olga.does(`/event entrants`); !strings.Contains(list.Text, "All want a sheet.") {
		t.Errorf("%s", list.Text)
	}
	if held := exported(t, robin, "entries.csv"); !strings.Contains(held, "sheet") {
		t.Errorf("the export does not tell whether a sheet is wanted:\n%s", held)
	}
	robin.does(`/me erase sure:yes`)
	if list := olga.does(`/event entrants`); strings.Contains(list.Text, "Robin") {
		t.Errorf("who left for good is still in:\n%s", list.Text)
	}
}
