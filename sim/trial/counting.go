package trial

import (
	"riddle/sim"
	"riddle/sim/flow"
)

// counting is what a trial reads of a machine beside its snapshot.
type counting interface {
	Tally() flow.Tally
	State() sim.State
	Live() int
}

func counts(m *sim.Machine) counting { return any(m).(counting) }
