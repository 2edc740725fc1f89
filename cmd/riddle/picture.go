package main

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"riddle/render"
	"riddle/render/raster"
	"riddle/sim"
	"riddle/sim/read/story"
	"riddle/sim/run/course"
	"riddle/sim/run/trial"
)

var pictureCommand = command{
	name: "picture",
	args: "[inputs] --at S --out FILE.png [--zone ZONE] [--theme paper|night|projector] [--labels] [--passes] [--width PX]",
	does: "writes a still of the cutaway S seconds after the first tick; --passes shows where grain drops through the concave, walkers and sieves, and loss by cause",
	run:  takePicture,
}

// Widths of a picture, px. Line weights are those of usualWidth, and grow with
// wider pictures.
const (
	narrowest, widest = 160, 7680
	usualWidth        = 1440
)

func takePicture(args []string, out io.Writer, notes *notes) error {
	var in inputs
	f := options("picture")
	in.options(f)
	at, file := f.String("at", "", ""), f.String("out", "", "")
	zone, theme, width := f.String("zone", "whole", ""), f.String("theme", "paper", ""), f.String("width", strconv.Itoa(usualWidth), "")
	labels, passes := f.Bool("labels", false, ""), f.Bool("passes", false, "")
	if err := read(f, args); err != nil {
		return err
	}
	opt, err := look(*zone, *theme, *width, *labels)
	if err != nil {
		return err
	}
	opt.Air, opt.Ways = true, *labels
	if !strings.EqualFold(filepath.Ext(*file), ".png") {
		return wrong("out", *file, "the path of a .png file")
	}
	if err := writable("out", *file); err != nil {
		return err
	}
	when, err := seconds("at", *at, fmt.Sprintf("0 to %d s after the first tick", trial.MaxSeconds))
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
	early := when
	if *passes {
		early = max(when-watched, 0)
	}
	m, way, err := trial.ReachAlong(s, plan, early, notes.progress(s.Crop))
	notes.done()
	if err != nil {
		return err
	}
	if *passes {
		opt.Passes = watch(m, way, when)
	}
	if err := paint(*file, m, opt); err != nil {
		return err
	}
	_, err = fmt.Fprintln(out, *file)
	return err
}

// watched is how long grain is seen to pass before a still is taken, s: so long
// that what passed before it hardly counts any more.
const watched = 6 * story.PassTime

// watch runs the machine on along its way until a time, s after the first tick,
// and returns where grain passed.
func watch(m *sim.Machine, way *course.Progress, until float64) *story.Passes {
	r := story.NewRecorder()
	r.Keep(m)
	var snap sim.Snapshot
	for m.Snapshot(&snap); snap.Tick < int64(math.Round(until*sim.TickHz)); m.Snapshot(&snap) {
		way.Step(m)
		m.Step()
		r.Keep(m)
	}
	return r.Passes()
}

// look reads what is to be seen and how.
func look(zone, theme, width string, labels bool) (render.Options, error) {
	z, ok := render.FindZone(zone)
	if !ok || zone == "" {
		names := []string{}
		for _, z := range render.Zones {
			names = append(names, z.Name)
		}
		return render.Options{}, wrong("zone", zone, "one of "+strings.Join(names, ", "))
	}
	if !slices.Contains(render.Themes, theme) {
		return render.Options{}, wrong("theme", theme, "one of "+strings.Join(render.Themes, ", "))
	}
	px, err := strconv.Atoi(strings.TrimSuffix(width, "px"))
	if err != nil || px < narrowest || px > widest {
		return render.Options{}, wrong("width", width, fmt.Sprintf("a whole number from %d to %d px", narrowest, widest))
	}
	opt := render.Options{Zone: z.Name, Theme: theme, Width: px, Scale: max(1, float64(px)/usualWidth), Labels: labels}
	opt.Height = opt.HeightFor(z)
	return opt, nil
}

// paint writes the picture of a machine into a file, whole or not at all.
func paint(path string, m *sim.Machine, opt render.Options) error {
	var snap sim.Snapshot
	m.Snapshot(&snap)
	var png bytes.Buffer
	if err := raster.PNG(&png, &snap, opt); err != nil {
		return err
	}
	if err := replace(path, png.Bytes()); err != nil {
		return fmt.Errorf("cannot write %s: %s", path, reason(err))
	}
	return nil
}
