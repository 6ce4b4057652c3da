package localpg

import (
	"strings"
	"testing"
)

func TestJudge(t *testing.T) {
	complaint := func(code string) string {
		fields := "SFATAL\x00VFATAL\x00C" + code + "\x00Mnot now\x00\x00"
		return "E\x00\x00\x00" + string(rune(4+len(fields))) + fields
	}
	for name, test := range map[string]struct {
		said string
		want state
	}{
		"no password is wanted":                {"R\x00\x00\x00\x08\x00\x00\x00\x00", ready},
		"a password is wanted":                 {"R\x00\x00\x00\x08\x00\x00\x00\x03", ready},
		"starting, recovering, stopping":       {complaint("57P03"), busy},
		"shut down by its owner":               {complaint("57P01"), busy},
		"a session crashed":                    {complaint("57P02"), busy},
		"too many connections":                 {complaint("53300"), ready},
		"no such user":                         {complaint("28000"), ready},
		"the answer to a question for SSL":     {"N", silent},
		"cannot fork, in the form of long ago": {"Ecould not fork new process for connection\n\x00", silent},
		"cut off":                              {complaint("57P03")[:12], silent},
		"nothing":                              {"", silent},
		"another protocol":                     {"HTTP/1.1 400 Bad Request\r\n\r\n", silent},
	} {
		if got := judge(strings.NewReader(test.said)); got != test.want {
			t.Errorf("%s: %s, want %s", name, got, test.want)
		}
	}
}
