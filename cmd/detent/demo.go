package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"slices"
	"time"

	"detent/bot"
	"detent/bot/console"
	"detent/tuning"
)

type demoCmd struct{}

// scene is one line of the demo: who says it, how many minutes into the day.
type scene struct {
	minute int
	person string
	line   string
}

// at is when a scene of the first day plays.
func (s scene) at() time.Time {
	return time.Date(2026, time.May, 16, 8, 30, 0, 0, time.UTC).Add(time.Duration(s.minute) * time.Minute)
}

// who is the person of a scene in the invented club.
func (s scene) who() tuning.Who {
	return tuning.Who{Club: "Windy Hill", Person: s.person, Name: s.person, Role: cmp.Or(roles[s.person], tuning.MemberRole)}
}

// roles are those of the invented club who are more than members.
var roles = map[string]tuning.Role{"Olga": tuning.OrganiserRole, "Kim": tuning.CoachRole}

// paddockDay is a day of an invented club: from the organiser's event and the
// first car until somebody asks what was changed.
var paddockDay = []scene{
	{-2880, "Olga", `/event add name:"Spring day" starts:"2026-05-16 09:00" ends:"2026-05-16 17:00" place:"Windy Hill" surface:bumpy`},
	{0, "Robin", `/car add name:"Blue hatch" drive:front engine:front mass:1080kg front-share:61% spring-front:45N/mm spring-rear:40N/mm tyre:semi-slick`},
	{2, "Robin", `/damper fit axle:both ways:two clicks:30 count:hard`},
	{3, "Robin", `/event enter`},
	{6, "Robin", `/apply`},
	{50, "Robin", `/symptom what:understeer where:entry`},
	{54, "Robin", `/apply advice:2`},
	{55, "Robin", `/apply advice:2`},
	{80, "Robin", `/feel grip:7 entry:0 mid:0 exit:-1 better:yes lap:1:42.6 notes:"turns in now"`},
	{82, "Robin", `/symptom what:understeer where:exit`},
	{90, "Sam", `/car add name:"Grey coupe" drive:rear engine:mid`},
	{91, "Sam", `/damper fit axle:both ways:one clicks:7 count:soft moves:both`},
	{92, "Sam", `/symptom what:oversteer where:exit`},
	{100, "Robin", `/window surface:bumpy`},
	{120, "Robin", `/sweep start`},
	{140, "Robin", `/sweep run hop:no grip:7`},
	{160, "Robin", `/sweep run hop:yes grip:6`},
	{170, "Kim", `/coach ask member:Robin`},
	{171, "Robin", `/coach accept member:Kim`},
	{180, "Kim", `/coach suggest member:Robin at:rear adjuster:rebound to:14 why:"It comes light on the brakes; half of that step is enough."`},
	{190, "Robin", `/coach notes`},
	{191, "Robin", `/apply advice:6`},
	{200, "Robin", `/sympton what:oversteer`},
	{201, "Robin", `/undo`},
	{202, "Robin", `/log`},
	{520, "Olga", `/event summary`},
}

// secondDay is a month later: what Robin says after each turn changes the order
// of the remedies, and the bot says why.
var secondDay = []scene{
	{0, "Robin", `/symptom what:understeer where:entry`},
	{1, "Robin", `/apply advice:7 remedy:2`},
	{30, "Robin", `/feel grip:7 entry:0 better:yes`},
	{60, "Robin", `/symptom what:understeer where:entry`},
	{61, "Robin", `/apply advice:8`},
	{90, "Robin", `/feel grip:7 entry:-1 better:same`},
	{91, "Robin", `/undo`},
	{110, "Robin", `/feel grip:7 entry:-1 better:yes`},
	{120, "Robin", `/symptom what:understeer where:entry`},
	{121, "Robin", `/why advice:9`},
	{130, "Robin", `/learned`},
	{140, "Robin", `/car season`},
}

// Run plays both days on a private database that is thrown away afterwards,
// through the same router as every other way in.
func (demoCmd) Run(ctx context.Context, config *Config, s *streams) (err error) {
	dir, err := os.MkdirTemp("", "detent-demo-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	own := &Config{Data: dir}
	db, close, err := own.open(ctx, toRehearse)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, close()) }()
	router := bot.NewRouter(lines, records{db}, slog.New(slog.NewTextHandler(s.errs, nil)))
	for i, scene := range slices.Concat(paddockDay, secondDay) {
		at := scene.at()
		if i >= len(paddockDay) {
			at = at.AddDate(0, 1, 0)
		}
		fmt.Fprintf(s.out, "── %s, %s\n   %s\n\n", at.Format("Mon 15:04"), scene.person, scene.line)
		desk := console.Desk{Bot: router, Lines: lines, Now: func() time.Time { return at }, Out: s.out, Files: filepath.Join(dir, "files"), Who: scene.who()}
		desk.Ask(ctx, newID(), scene.line)
		if desk.Err != nil {
			return desk.Err
		}
	}
	return nil
}
