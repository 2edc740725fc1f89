package tank

const (
	// augerIdle is the power of the empty unloading augers, kW, and augerWork
	// what they put into a kilogram, kJ: 45 kg/s take 8.8 kW. Calibrated to the
	// 25 hp that unloading takes of an engine of 400 hp (common practice, as the
	// trade press tells), by the size of the machine.
	augerIdle, augerWork = 2.0, 0.15
)

// UnloadKW returns the power of the unloading augers at an engine speed over
// its set speed, under kg/s of grain, kW: 2 x² + 0.15 q.
func UnloadKW(engine, grain float64) float64 {
	return float64(augerIdle*engine*engine) + float64(augerWork*grain)
}

// UnloadRate is the most that the augers empty of the tank, kg/s.
const UnloadRate = unloadRate
