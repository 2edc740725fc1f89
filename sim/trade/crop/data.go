package crop

// weed is green weed in any crop. Calibrated.
var weed = Class{Vt: 4.5, Spread: 1.0, Mat: 1.2, Mass: 20, Pieces: 1}

// all is the figures of the crops, by group; units as in the fields' comments.
//
//   - KernelMass, Seed, Size: typical values within published ranges (Khoshtaghaza
//     & Mehdizadeh and Int. Agrophysics 17(4) 2003 for wheat; Tavakoli et al. 2009
//     for barley; Kibar 2008 for soybeans; Razavi et al. 2009 for canola;
//     Zareiforoush 2009 for rice), each read as an abstract; corn and oats from
//     memory.
//   - Vt: within published ranges (Khoshtaghaza & Mehdizadeh for wheat; Trans. CSAE
//     2012, article 20122404, for soybeans; J. Med. Bioeng. 2014 for sorghum; CIGR
//     e-journal 5465 for rice), read as abstracts; corn, oats and canola from
//     memory. VtCV, LightVt: calibrated.
//   - PieceVt, Chaff and Short Vt: soybeans published (Trans. CSAE 2012); wheat
//     straw published (Womac et al., J. ASABE); the rest from memory or calibrated.
//   - Start: cylinder speed and clearance within the tables of Kepner, Bainer &
//     Barger, Principles of Farm Machinery, 3rd ed. 1978 (from memory); sieves and
//     reel index common practice; yield, ratio and ground speed calibrated so that
//     feeds are those of a walker machine of this width; fan speed calibrated, near
//     1,000 rpm for soybeans by common practice. Pre-sieve: closed for all but corn,
//     common practice.
//   - Usual: the same sources, as ranges; of the fan the start less and more a tenth.
//   - Seam: beans split between their two halves; common practice (the grade
//     counts splits).
//   - Damage: the moistures at which grain turns brittle or soft are published in
//     the trade press; the rates are calibrated.
//   - Moisture, MatDensity, Husk, the classes' Mat and Mass, Header: calibrated.
var all = []Crop{
	{
		Name: "wheat", KernelMass: 32, Slice: 14, Seed: Seed{6.6, 3.1, 2.7},
		Start: Start{
			GroundSpeed: 5.2, CylinderSpeed: 860, Clearance: 10, PreSieve: 0, Fan: 910, Upper: 16, Lower: 8,
			ReelIndex: 1.2, CuttingHeight: 15,
			Yield: 5, MOGRatio: 0.9, GrainMoisture: 13, StrawMoisture: 12, LightGrain: 1, HeaderWidth: 6,
		},
		Usual: Usual{
			GroundSpeed: Band{3.5, 6.5}, CylinderSpeed: Band{790, 960}, Clearance: Band{5, 13}, PreSieve: Band{0, 4}, Fan: Band{820, 1000},
			Upper: Band{13, 19}, Lower: Band{5, 9}, ReelIndex: Band{1.1, 1.3}, CuttingHeight: Band{8, 25},
		},
		Moisture: 0.05,
		Damage:   Damage{DryRate: 0.10, Dry: 13, WetRate: 0.08, Wet: 20},
		Vt:       8, VtCV: 0.10, LightVt: 5.4, Size: 3.1,
		PieceVt: 5.2, PieceSize: 9.5, PieceSD: 1.5, PieceKernels: 4,
		Husk:       0.2,
		Chaff:      Class{Vt: 2, Spread: 0.5, Mat: 1, Mass: 3, Pieces: 4},
		Short:      Class{Vt: 3.6, Spread: 0.7, Mat: 1, Mass: 50, Pieces: 1},
		Straw:      Class{Mass: 250, Pieces: 1},
		Weed:       weed,
		MatDensity: 40,
		Header:     Header{Loss: 0.7, DryRate: 0.1, SpeedPower: 2, HeadHeight: 65, HeadSD: 9, Plant: 80, Fixed: 0.2},
	},
	{
		Name: "barley", KernelMass: 40, Slice: 17, Seed: Seed{9.2, 3.5, 2.8},
		Start: Start{
			GroundSpeed: 5.2, CylinderSpeed: 800, Clearance: 10, PreSieve: 0, Fan: 840, Upper: 16, Lower: 8.5,
			ReelIndex: 1.2, CuttingHeight: 15,
			Yield: 5, MOGRatio: 0.8, GrainMoisture: 13.5, StrawMoisture: 12, LightGrain: 1, HeaderWidth: 6,
		},
		Usual: Usual{
			GroundSpeed: Band{3.5, 6.5}, CylinderSpeed: Band{730, 890}, Clearance: Band{6, 13}, PreSieve: Band{0, 4}, Fan: Band{760, 920},
			Upper: Band{14, 19}, Lower: Band{6, 10}, ReelIndex: Band{1.1, 1.3}, CuttingHeight: Band{8, 25},
		},
		Moisture: 0.05,
		Damage:   Damage{DryRate: 0.10, Dry: 13, WetRate: 0.08, Wet: 20},
		Vt:       7.2, VtCV: 0.10, LightVt: 4.9, Size: 3.1,
		PieceVt: 4.9, PieceSize: 10, PieceSD: 1.5, PieceKernels: 4,
		Husk:       0.2,
		Chaff:      Class{Vt: 2, Spread: 0.5, Mat: 1, Mass: 3, Pieces: 4},
		Short:      Class{Vt: 3.4, Spread: 0.7, Mat: 1, Mass: 50, Pieces: 1},
		Straw:      Class{Mass: 220, Pieces: 1},
		Weed:       weed,
		MatDensity: 40,
		Header:     Header{Loss: 0.9, DryRate: 0.1, SpeedPower: 2, HeadHeight: 55, HeadSD: 10, Plant: 75, Fixed: 0.2},
	},
	{
		Name: "oats", KernelMass: 34, Slice: 19, Seed: Seed{11, 2.9, 2.3},
		Start: Start{
			GroundSpeed: 5, CylinderSpeed: 800, Clearance: 11, PreSieve: 0, Fan: 730, Upper: 16, Lower: 9,
			ReelIndex: 1.2, CuttingHeight: 15,
			Yield: 4, MOGRatio: 1, GrainMoisture: 13.5, StrawMoisture: 13, LightGrain: 1, HeaderWidth: 6,
		},
		Usual: Usual{
			GroundSpeed: Band{3.5, 6.5}, CylinderSpeed: Band{640, 890}, Clearance: Band{6, 13}, PreSieve: Band{0, 4}, Fan: Band{660, 800},
			Upper: Band{14, 19}, Lower: Band{8, 11}, ReelIndex: Band{1.1, 1.3}, CuttingHeight: Band{8, 25},
		},
		Moisture: 0.05,
		Damage:   Damage{DryRate: 0.10, Dry: 13, WetRate: 0.08, Wet: 20},
		Vt:       6.2, VtCV: 0.11, LightVt: 4.2, Size: 2.8,
		PieceVt: 4.3, PieceSize: 10.5, PieceSD: 1.5, PieceKernels: 3,
		Husk:       0.2,
		Chaff:      Class{Vt: 1.7, Spread: 0.5, Mat: 1, Mass: 3, Pieces: 4},
		Short:      Class{Vt: 2.9, Spread: 0.6, Mat: 1, Mass: 50, Pieces: 1},
		Straw:      Class{Mass: 250, Pieces: 1},
		Weed:       weed,
		MatDensity: 35,
		Header:     Header{Loss: 0.9, DryRate: 0.1, SpeedPower: 2, HeadHeight: 70, HeadSD: 10, Plant: 95, Fixed: 0.2},
	},
	{
		Name: "soybeans", KernelMass: 156, Slice: 85, Seed: Seed{7.4, 6.6, 5.8},
		Start: Start{
			GroundSpeed: 6.2, CylinderSpeed: 480, Clearance: 18, PreSieve: 0, Fan: 1000, Upper: 15, Lower: 11,
			ReelIndex: 1.2, CuttingHeight: 6,
			Yield: 3.4, MOGRatio: 1, GrainMoisture: 13, StrawMoisture: 15, LightGrain: 1, HeaderWidth: 6,
		},
		Usual: Usual{
			GroundSpeed: Band{4, 7}, CylinderSpeed: Band{450, 550}, Clearance: Band{10, 19}, PreSieve: Band{0, 4}, Fan: Band{900, 1100},
			Upper: Band{13, 19}, Lower: Band{8, 13}, ReelIndex: Band{1.1, 1.25}, CuttingHeight: Band{4, 10},
		},
		Moisture: 0.05,
		Damage:   Damage{DryRate: 0.25, Dry: 13, WetRate: 0.08, Wet: 18},
		Seam:     true,
		Vt:       11.2, VtCV: 0.10, LightVt: 6.6, Size: 6.3,
		PieceVt: 5.2, PieceSize: 11, PieceSD: 1.5, PieceKernels: 2,
		Husk:       0.3,
		Chaff:      Class{Vt: 2.8, Spread: 0.6, Mat: 1, Mass: 40, Pieces: 2},
		Short:      Class{Vt: 3.4, Spread: 0.6, Mat: 1, Mass: 80, Pieces: 1},
		Straw:      Class{Mass: 500, Pieces: 3},
		Weed:       weed,
		MatDensity: 40,
		Header:     Header{Loss: 3.1, DryRate: 0.12, SpeedPower: 2, HeadHeight: 45, HeadSD: 16, Plant: 80, Fixed: 0.3},
	},
	{
		Name: "corn", KernelMass: 300, Slice: 80, Seed: Seed{11.5, 8, 4.6},
		Start: Start{
			GroundSpeed: 4.3, CylinderSpeed: 480, Clearance: 28, PreSieve: 11, Fan: 1060, Upper: 17, Lower: 13,
			ReelIndex: 0, CuttingHeight: 0,
			Yield: 10, MOGRatio: 0.25, GrainMoisture: 20, StrawMoisture: 35, LightGrain: 1, HeaderWidth: 6,
		},
		Usual: Usual{
			GroundSpeed: Band{3.5, 6}, CylinderSpeed: Band{400, 600}, Clearance: Band{22, 29}, PreSieve: Band{8, 16}, Fan: Band{950, 1170},
			Upper: Band{14, 19}, Lower: Band{11, 16}, ReelIndex: Band{}, CuttingHeight: Band{},
		},
		Moisture: 0.05,
		Damage:   Damage{DryRate: 0.06, Dry: 16, WetRate: 0.09, Wet: 20},
		Vt:       11.5, VtCV: 0.12, LightVt: 7, Size: 7,
		PieceVt: 8, PieceSize: 17, PieceSD: 2.5, PieceKernels: 8,
		Husk:       0.2,
		Chaff:      Class{Vt: 2.8, Spread: 0.7, Mat: 1, Mass: 40, Pieces: 1},
		Short:      Class{Vt: 6, Spread: 1.2, Mat: 0.45, Mass: 600, Pieces: 1},
		Straw:      Class{Mass: 1500, Pieces: 1},
		Weed:       weed,
		MatDensity: 40,
		Header:     Header{Loss: 1.5, DryRate: 0.04, SpeedPower: 2, HeadHeight: 95, HeadSD: 12, Plant: 200, Fixed: 1, Snaps: true},
	},
	{
		Name: "canola", KernelMass: 3.3, Slice: 3, Seed: Seed{2, 2, 2},
		Start: Start{
			GroundSpeed: 5, CylinderSpeed: 510, Clearance: 16, PreSieve: 0, Fan: 720, Upper: 12, Lower: 6,
			ReelIndex: 1.2, CuttingHeight: 25,
			Yield: 2.4, MOGRatio: 1.8, GrainMoisture: 9, StrawMoisture: 15, LightGrain: 1, HeaderWidth: 6,
		},
		Usual: Usual{
			GroundSpeed: Band{3.5, 6}, CylinderSpeed: Band{410, 610}, Clearance: Band{11, 18}, PreSieve: Band{0, 4}, Fan: Band{650, 790},
			Upper: Band{6, 13}, Lower: Band{3, 7}, ReelIndex: Band{1.1, 1.25}, CuttingHeight: Band{15, 35},
		},
		Moisture: 0.05,
		Damage:   Damage{DryRate: 0.15, Dry: 8, WetRate: 0.08, Wet: 14},
		Vt:       6.6, VtCV: 0.09, LightVt: 4.4, Size: 2,
		PieceVt: 3.8, PieceSize: 6.5, PieceSD: 1.2, PieceKernels: 6,
		Husk:       0.3,
		Chaff:      Class{Vt: 1.6, Spread: 0.5, Mat: 1, Mass: 3, Pieces: 1},
		Short:      Class{Vt: 2.9, Spread: 0.8, Mat: 1, Mass: 15, Pieces: 1},
		Straw:      Class{Mass: 400, Pieces: 1},
		Weed:       weed,
		MatDensity: 35,
		Header:     Header{Loss: 1.2, DryRate: 0.15, SpeedPower: 2, HeadHeight: 75, HeadSD: 14, Plant: 110, Fixed: 0.3},
	},
	{
		Name: "rice", KernelMass: 25, Slice: 15, Seed: Seed{9.5, 2.7, 1.95},
		Start: Start{
			GroundSpeed: 2.5, CylinderSpeed: 796, Clearance: 9, PreSieve: 0, Fan: 770, Upper: 15, Lower: 8,
			ReelIndex: 1.2, CuttingHeight: 20,
			Yield: 7.5, MOGRatio: 1.2, GrainMoisture: 19, StrawMoisture: 40, LightGrain: 1.5, HeaderWidth: 6,
		},
		Usual: Usual{
			GroundSpeed: Band{1.5, 3.5}, CylinderSpeed: Band{740, 860}, Clearance: Band{5, 10}, PreSieve: Band{0, 4}, Fan: Band{690, 850},
			Upper: Band{13, 19}, Lower: Band{6, 10}, ReelIndex: Band{1.1, 1.25}, CuttingHeight: Band{10, 30},
		},
		Moisture: 0.05,
		Damage:   Damage{DryRate: 0.08, Dry: 18, WetRate: 0.06, Wet: 23},
		Vt:       6.6, VtCV: 0.10, LightVt: 4.5, Size: 2.5,
		PieceVt: 4.3, PieceSize: 9, PieceSD: 1.5, PieceKernels: 5,
		Husk:       0.15,
		Chaff:      Class{Vt: 1.9, Spread: 0.5, Mat: 1, Mass: 2.5, Pieces: 4},
		Short:      Class{Vt: 3, Spread: 0.7, Mat: 1, Mass: 50, Pieces: 1},
		Straw:      Class{Mass: 300, Pieces: 1},
		Weed:       weed,
		MatDensity: 40,
		Header:     Header{Loss: 1, DryRate: 0.08, SpeedPower: 2, HeadHeight: 65, HeadSD: 10, Plant: 90, Fixed: 0.15},
	},
	{
		Name: "sorghum", KernelMass: 27, Slice: 12, Seed: Seed{4.5, 4, 2.6},
		Start: Start{
			GroundSpeed: 5.4, CylinderSpeed: 640, Clearance: 11, PreSieve: 0, Fan: 920, Upper: 15, Lower: 8,
			ReelIndex: 1.2, CuttingHeight: 60,
			Yield: 4.5, MOGRatio: 0.8, GrainMoisture: 16, StrawMoisture: 35, LightGrain: 1, HeaderWidth: 6,
		},
		Usual: Usual{
			GroundSpeed: Band{4, 6}, CylinderSpeed: Band{560, 720}, Clearance: Band{6, 13}, PreSieve: Band{0, 4}, Fan: Band{830, 1010},
			Upper: Band{10, 16}, Lower: Band{5, 9}, ReelIndex: Band{1.15, 1.25}, CuttingHeight: Band{45, 75},
		},
		Moisture: 0.05,
		Damage:   Damage{DryRate: 0.08, Dry: 14, WetRate: 0.08, Wet: 22},
		Vt:       8.7, VtCV: 0.09, LightVt: 5.8, Size: 3.7,
		PieceVt: 5.5, PieceSize: 10, PieceSD: 1.5, PieceKernels: 6,
		Husk:       0.3,
		Chaff:      Class{Vt: 2.1, Spread: 0.6, Mat: 1, Mass: 4, Pieces: 3},
		Short:      Class{Vt: 3.8, Spread: 0.8, Mat: 1, Mass: 100, Pieces: 1},
		Straw:      Class{Mass: 800, Pieces: 1},
		Weed:       weed,
		MatDensity: 40,
		Header:     Header{Loss: 1.2, DryRate: 0.08, SpeedPower: 2, HeadHeight: 95, HeadSD: 9, Plant: 110, Fixed: 0.3},
	},
}
