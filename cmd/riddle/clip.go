package main

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"strconv"
	"strings"

	"riddle/render"
	"riddle/render/raster"
	"riddle/sim"
	"riddle/sim/run/course"
	"riddle/sim/run/trial"
)

var clipCommand = command{
	name: "clip",
	args: "[inputs] --from S --to S --out FILE.png|.gif [--zone ZONE] [--theme paper|night|projector] [--width PX]",
	does: "writes a looping clip (APNG or GIF) of the cutaway, from one time to another after the first tick",
	run:  takeClip,
}

// longestClip is how much simulated time a clip may hold, s.
const longestClip = 60

func takeClip(args []string, out io.Writer, notes *notes) error {
	var in inputs
	f := options("clip")
	in.options(f)
	from, to, file := f.String("from", "", ""), f.String("to", "", ""), f.String("out", "", "")
	zone, theme, width := f.String("zone", "whole", ""), f.String("theme", "paper", ""), f.String("width", strconv.Itoa(usualWidth), "")
	if err := read(f, args); err != nil {
		return err
	}
	opt, err := look(*zone, *theme, *width, false)
	if err != nil {
		return err
	}
	opt.Air = true
	kind := strings.ToLower(filepath.Ext(*file))
	if kind != ".png" && kind != ".gif" {
		return wrong("out", *file, "the path of a .png file (APNG) or a .gif file")
	}
	if err := writable("out", *file); err != nil {
		return err
	}
	a, b, err := clipTimes(*from, *to)
	if err != nil {
		return err
	}
	s, err := in.setup(notes)
	if err != nil {
		return err
	}
	opt.Faults = in.faults
	var plan trial.Plan
	in.along(&plan)
	m, way, err := trial.ReachAlong(s, plan, a, notes.progress(s.Crop))
	notes.done()
	if err != nil {
		return err
	}
	clip, err := film(m, way, b-a, kind, opt)
	if err != nil {
		return err
	}
	if err := replace(*file, clip); err != nil {
		return fmt.Errorf("cannot write %s: %s", *file, reason(err))
	}
	_, err = fmt.Fprintln(out, *file)
	return err
}

// clipTimes reads from when to when the clip goes, s after the first tick.
func clipTimes(from, to string) (a, b float64, err error) {
	want := fmt.Sprintf("0 to %d s after the first tick", trial.MaxSeconds)
	if a, err = seconds("from", from, want); err != nil {
		return 0, 0, err
	}
	if b, err = seconds("to", to, want); err != nil {
		return 0, 0, err
	}
	if a < 0 || a > trial.MaxSeconds {
		return 0, 0, wrong("from", from, want)
	}
	if !(b > a && b-a <= longestClip) {
		return 0, 0, wrong("to", to, fmt.Sprintf("later than --from, by at most %d s", longestClip))
	}
	return a, b, nil
}

// film runs the machine on along its way for some seconds and returns the pictures of it as
// a file.
func film(m *sim.Machine, way *course.Progress, seconds float64, kind string, opt render.Options) ([]byte, error) {
	frames := max(int(math.Round(seconds*raster.ClipRate)), 1)
	var file bytes.Buffer
	clip := raster.NewAPNG(&file, frames, opt)
	if kind == ".gif" {
		clip = raster.NewGIF(&file, frames, opt)
	}
	var snap sim.Snapshot
	made := 0
	for i := range frames {
		for ; made < i*sim.TickHz/raster.ClipRate; made++ {
			way.Step(m)
			m.Step()
		}
		m.Snapshot(&snap)
		if err := clip.Add(&snap); err != nil {
			return nil, err
		}
	}
	err := clip.Close()
	return file.Bytes(), err
}
