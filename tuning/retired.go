package tuning

// Running leaves out the cars that are retired.
func Running(cars []Car) []Car {
	var out []Car
	for _, c := range cars {
		if !c.Retired {
			out = append(out, c)
		}
	}
	return out
}
