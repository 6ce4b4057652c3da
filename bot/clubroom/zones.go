package clubroom

import (
	"context"
	_ "embed"
	"strings"

	"detent/bot"
	"detent/bot/say"
	"detent/bot/spelling"
	"detent/tuning"
	"detent/tuning/calendar"
)

// zoneNames are the names of the time zone database's zone tables, one a line.
//
//go:embed zones.txt
var zoneNames string

var zones = strings.Fields(zoneNames)

// findZone finds a time zone by its name, whatever its case, or offers the
// nearest: by the whole name, or by its city.
func findZone(text string) (string, error) {
	name := strings.ReplaceAll(strings.TrimSpace(text), " ", "_")
	for _, z := range zones {
		if strings.EqualFold(z, name) {
			return z, nil
		}
	}
	if _, err := calendar.Zone(name); err == nil { // an older name
		return name, nil
	}
	hint := spelling.DidYouMean(name, zones)
	if city, ok := spelling.Nearest(name, cities()); ok && !strings.Contains(name, "/") {
		hint = " (did you mean " + zoneOfCity(city) + "?)"
	}
	return "", bot.Problemf(tuning.Invalid, "I know no time zone %s%s: name one by continent and city, for example Europe/Berlin, or UTC.", say.Echo(text), hint)
}

// cities are the last words of the zones' names.
func cities() []string {
	names := make([]string, len(zones))
	for i, z := range zones {
		names[i] = city(z)
	}
	return names
}

func city(zone string) string { return zone[strings.LastIndexByte(zone, '/')+1:] }

func zoneOfCity(name string) string {
	for _, z := range zones {
		if city(z) == name {
			return z
		}
	}
	return name
}

func suggestZones(context.Context, bot.Call, bot.Book, setClubOptions, string) ([]bot.Suggestion, error) {
	var all []bot.Suggestion
	for _, z := range zones {
		all = append(all, bot.Suggestion{Value: z, Label: z})
	}
	return all, nil
}
