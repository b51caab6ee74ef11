package reckon

import "awn/unit"

var airs = []Entry{
	{
		Name: "air", Aliases: []string{"psychrometrics", "humidity"}, Subject: "Air", Title: "Moist air from any two of its properties, at any altitude",
		Inputs: []Input{
			{Key: "t", Words: []string{"dry-bulb", "db", "temperature"}, Doc: "dry bulb", In: []unit.Dimension{unit.Temperature}},
			{Key: "rh", Words: []string{"humidity"}, Doc: "relative humidity", In: []unit.Dimension{unit.Percent}, Also: map[string]string{"%rh": "%", "% rh": "%"}},
			{Key: "wb", Words: []string{"wet-bulb", "wet"}, Doc: "wet bulb", In: []unit.Dimension{unit.Temperature}, Named: true},
			{Key: "dp", Words: []string{"dew-point", "dew"}, Doc: "dew point", In: []unit.Dimension{unit.Temperature}, Named: true},
			{Key: "w", Words: []string{"ratio"}, Doc: "humidity ratio, per kg of dry air", In: []unit.Dimension{unit.Concentration}, Also: map[string]string{"kg/kg": "kg/kg"}},
			{Key: "h", Words: []string{"enthalpy"}, Doc: "enthalpy, per kg of dry air", In: []unit.Dimension{unit.SpecificEnthalpy}},
			{Key: "v", Words: []string{"volume"}, Doc: "volume, per kg of dry air", In: []unit.Dimension{unit.SpecificVolume}},
			{Key: "altitude", Words: []string{"alt"}, Doc: "altitude above the sea", In: []unit.Dimension{unit.Altitude}},
			{Key: "pressure", Words: []string{"p"}, Doc: "pressure of the air", In: []unit.Dimension{unit.Pressure}},
		},
		Note:     "Two properties, and altitude or pressure; sea level if neither is given.",
		Examples: []string{"air 30 °C 50 %rh at 300 m", "air 30 °C 50 %", "air 86 °F wb 72 °F at 1000 ft", "air dp=12 °C rh=80 %"},
		compute:  moistAir,
	},
	{
		Name: "airflow", Aliases: []string{"air-flow", "cfm"}, Subject: "Air", Title: "Airflow by tonne, by floor and through the whole vessel",
		Inputs: []Input{
			{Key: "flow", Doc: "airflow", In: []unit.Dimension{unit.Airflow}, Must: true},
			{Key: "load", Words: []string{"cast"}, Doc: "barley as cast", In: []unit.Dimension{unit.Mass}},
			{Key: "area", Words: []string{"floor"}, Doc: "area of the floor", In: []unit.Dimension{unit.Area}},
		},
		Note:     "Volumes of air at 20 °C and 1013 hPa; tonnes and bushels of barley as cast, not of what lies there now. Give load and floor to have it counted every way.",
		Examples: []string{"airflow 300 m3/h/t", "airflow 300 m3/h/t for 20 t on 40 m2", "airflow 0.25 m/s on 40 m2 for 20 t"},
		compute:  airflow,
	},
	{
		Name: "resistance", Aliases: []string{"bed", "drop"}, Subject: "Air", Title: "Pressure that air loses in a bed of barley",
		Inputs: []Input{
			{Key: "velocity", Words: []string{"v"}, Doc: "air through the floor", In: []unit.Dimension{unit.Speed}, Must: true},
			{Key: "depth", Doc: "depth of the bed", In: []unit.Dimension{unit.Length}, Must: true},
			{Key: "factor", Words: []string{"times"}, Doc: "resistance factor", Least: 0.1, Most: 10, Default: "1"},
		},
		Note:     "Clean loose barley is factor 1; packing, rootlets and fines raise it, and only the house's own gauge says by how much.",
		Examples: []string{"resistance 0.3 m/s 0.9 m", "resistance 50 ft/min 3 ft factor 1.5"},
		compute:  resistance,
	},
}
