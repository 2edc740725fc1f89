package rules

// exception is a cell that the model does not meet, in some crops or all.
type exception struct {
	rule  string
	crops []string // none: all
	why   string
}

// unmet returns why a rule does not hold in a crop, or nothing where that is
// not known.
func unmet(id, crop string) string {
	for _, e := range exceptions {
		if e.rule != id {
			continue
		}
		if len(e.crops) == 0 {
			return e.why
		}
		for _, c := range e.crops {
			if c == crop {
				return e.why
			}
		}
	}
	return ""
}

// exceptions are the cells that the model does not meet, each with the reason.
var exceptions = []exception{}
