package tuning

// Job is what an adjuster is there for, whatever the damper at hand. It is kept
// in the record by its word.
type Job string

// The jobs that the table of remedies gives to adjusters.
const (
	AnyRebound  Job = "rebound"            // low-speed rebound, else rebound, else the single adjuster
	AnyBump     Job = "bump"               // low-speed bump, else bump, else the single adjuster if it moves both
	FastBump    Job = "high-speed bump"    // high-speed bump, else bump with a slight step
	FastRebound Job = "high-speed rebound" // high-speed rebound, only where there is one
)

// least is what a damper must have at the least to do the job.
func (k Job) least() Job {
	if k == FastBump {
		return AnyBump
	}
	return k
}
