package tuning

// This file lists the words of each kind, in the order people are offered them.

func wordsOf[W ~string](of ...W) []string {
	words := make([]string, len(of))
	for i, w := range of {
		words[i] = string(w)
	}
	return words
}

// Choices lists the layouts of drive.
func (Drive) Choices() []string { return wordsOf(FrontDrive, RearDrive, FourDrive) }

// Choices lists the places of the engine.
func (Engine) Choices() []string { return wordsOf(FrontEngine, MidEngine, RearEngine) }

// Choices lists the classes of tyre.
func (Tyre) Choices() []string { return wordsOf(RoadTyre, SemiSlick, Slick) }

// Choices lists the levels of downforce.
func (Aero) Choices() []string { return wordsOf(NoAero, WingAero, HighAero) }

// Choices lists the uses.
func (Use) Choices() []string { return wordsOf(TrackUse, RoadAndTrackUse) }

// Choices lists the kinds of weather that a car can be driven in.
func (Weather) Choices() []string { return wordsOf(Dry, Wet) }

// Choices lists the kinds of surface.
func (Surface) Choices() []string { return wordsOf(Smooth, Bumpy, Rough) }

// Choices lists the two ways to count.
func (Count) Choices() []string { return wordsOf(FromHard, FromSoft) }

// Choices lists what a one-way adjuster can move.
func (Moves) Choices() []string { return wordsOf(MovesRebound, MovesBoth) }

// Choices lists the systems of units.
func (Units) Choices() []string { return wordsOf(Metric, Imperial) }

// Choices lists the answers.
func (Better) Choices() []string { return wordsOf(BetterYes, BetterNo, BetterSame) }

// Choices lists the parts of a corner.
func (Where) Choices() []string { return wordsOf(Entry, Mid, Exit) }

// Choices lists the complaints.
func (What) Choices() []string {
	var words []string
	for _, w := range Whats {
		words = append(words, string(w.What))
	}
	return words
}

// Choices lists the words for a Heat.
func (Heat) Choices() []string { return wordsOf(TakenCold, TakenHot) }

// Choices lists the words for Conditions.
func (Conditions) Choices() []string { return wordsOf(ItWasDry, ItWasDamp, ItWasWet) }

// Choices lists the words for a Subject.
func (Subject) Choices() []string {
	return wordsOf(AboutPressures, AboutTyres, AboutSprings, AboutBars, AboutRideHeight, AboutAlignment, AboutBrakes, AboutOther)
}

// Choices lists who may read answers.
func (Answers) Choices() []string { return wordsOf(PrivateAnswers, SharedAnswers) }
