package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"

	"riddle/scenarios"
	"riddle/sim"
	"riddle/sim/setup"
	kept "riddle/web/share"
)

// fromLink is the start that a link of the page holds.
func (in *inputs) fromLink(text string) (setup.Setup, error) {
	k, err := kept.ReadLink(text)
	if err != nil {
		return setup.Setup{}, notOpened(err, "link", text, "a link of the page, or what follows the # in it")
	}
	return in.opened(&k)
}

// fromScenario is a situation by its name or in a file, or what the page saved
// into a file.
func (in *inputs) fromScenario(text string) (s setup.Setup, of string, err error) {
	sc := scenarios.Find(text)
	if sc == nil {
		content, err := scenarioFile(text)
		if err != nil {
			return s, "", err
		}
		if !scenarios.Is(content) {
			s, err = in.fromFile(text, content)
			return s, filepath.Base(text), err
		}
		if sc, err = scenarios.Read(text, content); err != nil {
			return s, "", err
		}
	}
	if in.second {
		return s, "", wrong("second", "true", "given with a link or a file that holds two machines")
	}
	in.way, in.situation = sc.Course(), sc.Name
	s, err = sc.Setup()
	return s, sc.Name, err
}

// scenarioFile reads the file that is meant where no situation has that name.
func scenarioFile(text string) ([]byte, error) {
	if _, err := os.Stat(text); err != nil {
		want := "one of " + strings.Join(scenarios.Names(), ", ") + ", or a file"
		if filepath.Ext(text) != "" || strings.ContainsRune(text, filepath.Separator) {
			want = "a readable file: " + reason(err)
		}
		return nil, wrong("scenario", text, want)
	}
	return readFile("scenario", text)
}

func (in *inputs) fromFile(path string, content []byte) (setup.Setup, error) {
	k, err := kept.ReadFile(content)
	if err != nil {
		return setup.Setup{}, notOpened(err, "scenario", path, "a situation, or a setup that the page saved")
	}
	return in.opened(&k)
}

// notOpened says what was wrong with a link or a file.
func notOpened(err error, option, given, want string) error {
	var bad *kept.Error
	if errors.As(err, &bad) {
		return wrong(option, given, want+". "+bad.Error())
	}
	return err
}

// opened takes up what the page kept, as the page does: conditions that are not
// those of the situation are the user's, and its course leaves them alone.
func (in *inputs) opened(k *kept.Kept) (setup.Setup, error) {
	s := k.Setup
	switch {
	case in.second && k.Second == nil:
		return s, wrong("second", "true", "given with a link or a file that holds two machines")
	case in.second:
		s.Settings = *k.Second
	case k.Second != nil:
		in.said = append(in.said, "two machines are held there; this is the first, and --second takes the other")
	}
	if k.Model != "" && k.Model != sim.Model {
		in.said = append(in.said, "made under other laws of the model ("+k.Model+"; here "+sim.Model+"): settings are the same, readings may differ")
	}
	in.price = k.Price
	sc := scenarios.Find(k.Situation)
	if sc == nil {
		return s, nil
	}
	in.way, in.situation = sc.Course(), sc.Name
	own, err := sc.Setup()
	for i := range setup.Fields {
		if f := &setup.Fields[i]; f.Condition && f.Get(&own) != f.Get(&s) {
			in.held = append(in.held, f.Name)
		}
	}
	return s, err
}
