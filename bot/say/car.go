package say

import "detent/tuning"

// Drives joins kinds of drive: "front and four-wheel".
func Drives(drives []tuning.Drive) string {
	words := make([]string, len(drives))
	for i, d := range drives {
		words[i] = Drive(d)
	}
	return AllOf(words)
}

// Drive is a kind of drive as it stands before the word drive.
func Drive(d tuning.Drive) string {
	if d == tuning.FourDrive {
		return "four-wheel"
	}
	return string(d)
}
