package share

import (
	"errors"
	"fmt"

	"riddle/sim/read/readout"
	"riddle/sim/run/journal"
	"riddle/sim/run/trial"
)

// Verdict is what comes of making a run again.
type Verdict string

// The verdicts.
const (
	Same         Verdict = "same"          // all is as claimed
	OtherVersion Verdict = "other version" // made under other laws, not made again
	Damaged      Verdict = "damaged"       // cannot be read whole, or its checksum fails
	Altered      Verdict = "altered"       // reads, but comes to something else than is claimed
)

// Replayed is a run that was made again from its file.
type Replayed struct {
	Verdict Verdict
	Claimed string         // the digest that the file claims, where it can be read
	Reason  string         // why it is not the same, in a sentence
	Run     *journal.Run   // as it stands at the end; nil where it was not made
	Report  readout.Report // of its window
}

// Replay makes the run of a file again and holds it against what is claimed. A
// text that is no file of a run is an error.
func Replay(text []byte, progress func(done float64)) (Replayed, error) {
	kept, err := ReadRun(text)
	var bad *Error
	switch {
	case err == nil:
		return kept.replay(progress)
	case !errors.As(err, &bad) || bad.Code == Foreign:
		return Replayed{}, err
	case bad.Code == Newer:
		return Replayed{Verdict: OtherVersion, Claimed: kept.Digest, Reason: err.Error()}, nil
	}
	return Replayed{Verdict: Damaged, Reason: err.Error()}, nil
}

func (k *Ran) replay(progress func(float64)) (Replayed, error) {
	r := Replayed{Verdict: Same, Claimed: k.Digest}
	run, report, err := trial.Play(k.Journal, k.Window, progress)
	if err != nil {
		return r, err
	}
	r.Run, r.Report = run, report
	switch tick, digest := run.Machine.Tick(), *report.Digest; {
	case tick != k.Ticks:
		r.Verdict, r.Reason = Altered, fmt.Sprintf("It comes to its end after %d ticks; %d are claimed.", tick, k.Ticks)
	case digest != k.Digest:
		r.Verdict, r.Reason = Altered, fmt.Sprintf("It comes to the digest %s…; %s… is claimed.", digest[:12], k.Digest[:12])
	}
	return r, nil
}
