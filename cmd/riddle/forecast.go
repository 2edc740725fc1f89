package main

import (
	"riddle/sim/readout"
	"riddle/sim/setup"
	"riddle/sim/trial"
)

func foretell(s setup.Setup) (readout.Report, error) {
	_, r, err := trial.Run(s, trial.Plan{Warmup: 30, Seconds: 10}, nil)
	return r, err
}
