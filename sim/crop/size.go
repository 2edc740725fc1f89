package crop

// What light and broken kernels measure, as shares of the limiting dimension
// of a sound one.
const (
	LightSize  = 0.85 // mean of light kernels; calibrated
	BrokenSize = 0.75 // mean of broken kernels; calibrated
)
