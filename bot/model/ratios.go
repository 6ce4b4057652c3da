package model

import (
	"detent/bot"
	"detent/bot/chart"
	"detent/bot/say"
	"detent/bot/typeset"
	"detent/tuning"
	"detent/tuning/figures"
)

// ratioPicture is the picture of the damping ratios of the axles with a force
// table; nil where there is none.
func ratioPicture(model figures.Model, car tuning.Car, at tuning.Setting) *bot.Picture {
	var drawing chart.Ratios
	drawing.Title = typeset.Name(car.Name, "The car") + estimateMark(model, figures.OnDampers)
	for axle := range tuning.Axle(tuning.Axles) {
		if car.Curves[axle] == nil {
			continue
		}
		lines, err := model.Lines(axle)
		if err != nil {
			return nil
		}
		stands := figures.ClicksOf(at, axle)
		panel := chart.RatioAxle{Scale: chart.Scale{Name: say.Capital(axle.String())}}
		for _, l := range lines {
			values := make([]float64, len(l.Ratios))
			for i, r := range l.Ratios {
				values[i] = float64(r)
			}
			panel.Lines = append(panel.Lines, chart.Line{Name: l.Name(), First: l.First, Values: values, Today: stands[l.Adjuster]})
			panel.Clicks = max(panel.Clicks, car.Dampers[axle].Range[l.Adjuster])
		}
		drawing.Axles = append(drawing.Axles, panel)
	}
	if len(drawing.Axles) == 0 {
		return nil
	}
	return bot.PictureOf(drawing)
}
