package straw

import "riddle/sim/stage/flow"

// Rooms is where dots are in a room that parts grain from straw.
type Rooms struct{ Plate, Mat, Under, Pan, Hood *flow.Swarm }

// Angles is how far its parts have turned, rad.
type Angles struct{ Beater, Crank, Chopper float64 }

// Rooms returns where the stage's dots are.
func (s *Stage) Rooms() Rooms { return Rooms{&s.Plate, &s.Mat, &s.Under, &s.Pan, &s.Hood} }

// Turned returns how far beater, cranks and chopper have turned.
func (s *Stage) Turned() Angles { return Angles{s.Beater, s.Crank, s.Chopper} }

// Bed returns the mat of straw.
func (s *Stage) Bed() *flow.Mat { return &s.Rows }

// CopyInto is CopyTo for whoever does not know which stage separates.
func (s *Stage) CopyInto(to any, rng flow.Stream, nextID *uint32) { s.CopyTo(to.(*Stage), rng, nextID) }
