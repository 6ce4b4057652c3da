package store

import (
	"fmt"
	"slices"

	"detent/tuning"
)

// The tables keep corners, axles and adjusters as words. These types read
// them, from columns and from JSON.
type (
	axleWord     tuning.Axle
	cornerWord   tuning.Corner
	adjusterWord tuning.Adjuster
)

var (
	axleWords     = words(tuning.Axle(tuning.Axles))
	cornerWords   = words(tuning.Corner(tuning.Corners))
	adjusterWords = words(tuning.Adjuster(tuning.Adjusters))
)

func words[T interface {
	~int
	fmt.Stringer
}](n T) []string {
	var list []string
	for v := range n {
		list = append(list, v.String())
	}
	return list
}

func (a *axleWord) Scan(word any) (err error) {
	*a, err = index[axleWord](axleWords, word)
	return err
}

func (c *cornerWord) Scan(word any) (err error) {
	*c, err = index[cornerWord](cornerWords, word)
	return err
}

func (a *adjusterWord) Scan(word any) (err error) {
	*a, err = index[adjusterWord](adjusterWords, word)
	return err
}

func (a *axleWord) UnmarshalText(word []byte) error     { return a.Scan(word) }
func (c *cornerWord) UnmarshalText(word []byte) error   { return c.Scan(word) }
func (a *adjusterWord) UnmarshalText(word []byte) error { return a.Scan(word) }

// index finds which of the list a value of the database is.
func index[T ~int](list []string, word any) (T, error) {
	text := fmt.Sprintf("%s", word) // a string or bytes
	i := slices.Index(list, text)
	if i < 0 {
		return 0, fmt.Errorf("%q is none of %q", text, list)
	}
	return T(i), nil
}
