package rest

import (
	"encoding/base64"
	"regexp"
	"strings"
)

var applicationNumber = regexp.MustCompile(`^\d{17,20}$`)

// IsApplication tells whether a text can be the number of an application.
func IsApplication(text string) bool { return applicationNumber.MatchString(text) }

// ApplicationIn is the number of the application that a token begins with, ""
// where it begins with none. It is the number of the bot as a person, which of
// an old application is another (from memory).
func ApplicationIn(token string) string {
	first, _, _ := strings.Cut(token, ".")
	number, err := base64.RawStdEncoding.DecodeString(strings.TrimRight(first, "="))
	if err != nil || !IsApplication(string(number)) {
		return ""
	}
	return string(number)
}
