package rules

// All lists every rule, in the order of the tables.
func All() []Rule { return append(threshingRules(), cleaningRules()...) }

// table gathers rules row by row.
type table struct {
	list   []Rule
	change *Change
	in     string
	no     string
}

// row begins a row.
func (t *table) row(c *Change) *table {
	t.change, t.in, t.no = c, "", ""
	return t
}

// only has what follows said of one crop.
func (t *table) only(crop string) *table {
	t.in = crop
	return t
}

// not has what follows beyond what the machine can be asked.
func (t *table) not(why string) *table {
	t.no = why
	return t
}

func (t *table) rises(list ...Reading) *table       { return t.add(Rises, false, list) }
func (t *table) falls(list ...Reading) *table       { return t.add(Falls, false, list) }
func (t *table) little(list ...Reading) *table      { return t.add(Little, false, list) }
func (t *table) risesOrNone(list ...Reading) *table { return t.add(Rises, true, list) }

func (t *table) add(want Sign, orNone bool, list []Reading) *table {
	for _, r := range list {
		id := t.change.Table + "-" + t.change.Key + "-" + r.Key
		if t.in != "" {
			id += "-" + t.in
		}
		t.list = append(t.list, Rule{ID: id, Change: t.change, Reading: r, Want: want, OrNone: orNone, In: t.in, not: t.no})
	}
	return t
}
