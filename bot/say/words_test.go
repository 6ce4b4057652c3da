package say

import "testing"

func TestWords(t *testing.T) {
	for written, want := range map[string]string{
		" Brake  later.\n> Then look. ":         "“Brake later. > Then look.”",
		"@everyone come":                        "“@\u2060everyone come”",
		"see #1152921504606846977":              "“see #\u20601152921504606846977”",
		"#<#1152921504606846977>":               "“#\u2060<#\u20601152921504606846977>”",
		"<@&115> and @<@&115>":                  "“<@\u2060&115> and @\u2060<@\u2060&115>”",
		"olga@club.example, gate #A":            "“olga@club.example, gate #A”",
		"turn\u202e around\u200b, नमस्ते\u200d": "“turn around, नमस्ते\u200d”",
	} {
		if got := Words(written); got != want {
			t.Errorf("%q becomes %q, want %q", written, got, want)
		}
	}
}
