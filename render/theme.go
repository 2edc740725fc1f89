package render

// Tone is a role that a colour plays in the picture.
type Tone uint8

const (
	Paper   Tone = iota // the empty ground of the picture
	Inside              // the room inside the machine, through which crop runs
	Sheet               // sheet metal seen from its side
	Ink                 // outlines, words
	Line                // working parts, hidden and outer parts
	Mat                 // a layer of crop, as a tint
	Heap                // grain in bulk, as a tint
	Stubble             // stalks that stay in the field
	ChaffTone
	StrawTone
	GrainTone
	CobTone
	WeedTone
	PieceTone
	BrokenTone
	AirTone
	Tones // how many there are
)

// RGB is an opaque colour.
type RGB struct{ R, G, B uint8 }

// Palette is the colour of each tone.
type Palette [Tones]RGB

// Theme is a palette and the weight of its lines.
type Theme struct {
	Name    string
	Colours Palette
	Weight  float32 // of strokes, against the paper theme
	Type    float32 // size of words, against the paper theme
}

var themes = []Theme{
	{"paper", Palette{
		Paper: hex(0xF4EFE3), Inside: hex(0xFAF7EF), Sheet: hex(0xE9E2D1), Ink: hex(0x24231F), Line: hex(0x6A6B66),
		Mat: hex(0xEDE6CB), Heap: hex(0xEBCF9B), Stubble: hex(0xC9C199),
		ChaffTone: hex(0x9F8844), StrawTone: hex(0x7D7F30), GrainTone: hex(0x9C5800), CobTone: hex(0x8C4355), WeedTone: hex(0x5D3A99),
		PieceTone: hex(0x134D2B), BrokenTone: hex(0x65140E), AirTone: hex(0x1F6FA8),
	}, 1, 1},
	{"night", Palette{
		Paper: hex(0x191B1A), Inside: hex(0x121413), Sheet: hex(0x252826), Ink: hex(0xECE6D6), Line: hex(0x8E928C),
		Mat: hex(0x24261C), Heap: hex(0x5A4420), Stubble: hex(0x4A4B36),
		ChaffTone: hex(0xE7DBB8), StrawTone: hex(0xBDC06C), GrainTone: hex(0xFFBF52), CobTone: hex(0xD7758D), WeedTone: hex(0xB28DF2),
		PieceTone: hex(0x4CC37E), BrokenTone: hex(0xFF291A), AirTone: hex(0x7CC4F5),
	}, 1, 1},
	{"projector", Palette{
		Paper: hex(0xFFFFFF), Inside: hex(0xFFFFFF), Sheet: hex(0xEBEBE8), Ink: hex(0x000000), Line: hex(0x4A4A46),
		Mat: hex(0xEFECDC), Heap: hex(0xEBC88B), Stubble: hex(0xB9B48C),
		ChaffTone: hex(0x86702F), StrawTone: hex(0x686A1E), GrainTone: hex(0x834900), CobTone: hex(0x7A3347), WeedTone: hex(0x4C2C86),
		PieceTone: hex(0x0D3F22), BrokenTone: hex(0x4F0D08), AirTone: hex(0x155A8C),
	}, 1.5, 1.2},
}

func hex(c uint32) RGB { return RGB{uint8(c >> 16), uint8(c >> 8), uint8(c)} }

// FindTheme returns the theme of the given name; ok is false for an unknown
// one, and the theme is then paper.
func FindTheme(name string) (t *Theme, ok bool) {
	for i := range themes {
		if themes[i].Name == name {
			return &themes[i], true
		}
	}
	return &themes[0], name == ""
}
