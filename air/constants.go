package air

// The constants of moist air as a perfect gas mixture. Recalled: ASHRAE 2017,
// ch. 1, eq. 20, 26, 28 and 30; every one enters the check of the functions
// below against an independent library.
const (
	MassRatio     = 0.621945 // molar mass of water over that of dry air
	DryAirGasJKgK = 287.042  // gas constant of dry air, J/(kg K)
	DryAirJKgK    = 1006.0   // heat capacity of dry air at constant pressure
	VapourJKgK    = 1860.0   // heat capacity of water vapour at constant pressure
	WaterJKgK     = 4186.0   // heat capacity of liquid water
	VapourAtZeroJ = 2.501e6  // enthalpy of water vapour at 0 °C, J/kg
	iceJKgK       = 2100.0   // heat capacity of ice
	iceVapourJ    = 2.830e6  // latent heat of ice in the wet bulb equation, J/kg
	iceVapourJK   = 240.0    // its fall with temperature, J/(kg K)
	volumeRatio   = 1.607858 // 1/MassRatio, as printed with the volume
	kelvinAtZero  = 273.15   // 0 °C, K
)

// VapourShareCap is the largest share of the total pressure that water vapour
// may hold. Assumed: a guard of ours against the pole at saturation, not a
// property of air; at the cap the air holds about 30 kg of vapour per kg.
const VapourShareCap = 0.98

// The range of the saturation formulas, °C.
const (
	MinC    = -100.0
	TripleC = 0.01
	MaxC    = 200.0
)
