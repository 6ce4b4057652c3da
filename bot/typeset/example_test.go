package typeset_test

import (
	"fmt"

	"detent/bot/typeset"
)

func ExampleSet() {
	for _, cluster := range typeset.Set("Blue רכב 2", typeset.Regular).Clusters {
		fmt.Print(cluster.Text)
	}
	// Output: Blue 2 בכר
}
