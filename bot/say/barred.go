package say

import "strings"

// Barred tells an organiser that nothing can be posted about an event, and how
// to mend it: the place is as the platform will show it; it is gone, or
// permissions are missing there by the platform's names, or neither is known.
func Barred(event, place string, gone bool, missing []string) (title, text, note string) {
	text = "I am not allowed to post in " + place + ": look at its permissions for me, or name another channel with /club set."
	switch {
	case gone:
		text = "The channel for the club's posts is gone: name another with /club set."
	case len(missing) > 0:
		text = "In " + place + " I lack: " + strings.Join(missing, ", ") + ". Give me that in the channel's permissions, or name another channel with /club set."
	}
	return "I cannot post about " + event, text, "I try again for some hours; once it is mended, the post comes by itself."
}
