package flow

// TickHz is the number of steps a second of simulated time, for everybody.
// Chosen: a dot at 12 m/s moves 0.1 m in a step.
const TickHz = 120

// Tick is the length of a step, s.
const Tick = 1.0 / TickHz
