package words

var lotFindingsES = map[string]string{
	"lot.moisture.assumed":          "no se dio la humedad de la cebada; se toma {value:wb} ({low:wb} a {high:wb}).",
	"lot.protein.assumed":           "no se dio la proteína; se toma {value:dm} ({low:dm} a {high:dm}), que mueve el extracto y la proteína soluble.",
	"lot.kernel-mass.assumed":       "no se dio el peso de mil granos; se toman {value:mg} por grano ({low:mg} a {high:mg}), y con ello la velocidad del remojo.",
	"lot.test-weight.assumed":       "no se dio el peso hectolítrico; se toman {value:kg_hl} ({low:kg_hl} a {high:kg_hl}).",
	"lot.capacity.assumed":          "no se dio la capacidad germinativa; se toman {value} de granos vivos ({low} a {high}).",
	"lot.dormancy.assumed":          "no se midió la dormición; se toman {value} de granos en dormición ({low} a {high}).",
	"lot.water-sensitivity.assumed": "no se midió la sensibilidad al agua; se toma {value} ({low} a {high}), y con ello cuánto reposo debe dar el remojo.",
	"lot.vigour.assumed":            "no se contó la velocidad de germinación; se toma que la mitad de los granos puntea tras {value:ch} ({low:ch} a {high:ch}).",
	"lot.beta-glucan.assumed":       "no se midió el betaglucano; se toma {value:dm} ({low:dm} a {high:dm}).",
	"lot.uptake.assumed":            "no se pesó ninguna primera inmersión de este lote; puede absorber agua a {low} a {high} de la velocidad usual.",
	"lot.sieve.assumed":             "no se dio ningún cribado; se toman las fracciones de un lote corriente de dos carreras.",
}

var lotActsES = map[string]string{
	"act.lot.measure-moisture":          "Dé la humedad del lote.",
	"act.lot.measure-protein":           "Dé la proteína del lote.",
	"act.lot.measure-kernel-mass":       "Pese mil granos.",
	"act.lot.measure-test-weight":       "Dé el peso hectolítrico.",
	"act.lot.measure-capacity":          "Ensaye la capacidad germinativa, 200 granos como mínimo.",
	"act.lot.measure-dormancy":          "Cuente la germinación en 4 mL junto a la capacidad.",
	"act.lot.measure-water-sensitivity": "Cuente la germinación en 8 mL junto a la de 4 mL.",
	"act.lot.measure-vigour":            "Cuente la germinación por días, el primero, el segundo y el tercero.",
	"act.lot.measure-beta-glucan":       "Haga medir el betaglucano.",
	"act.lot.measure-uptake":            "Remoje un puñado seis horas, péselo escurrido, y dé esa humedad con el lote.",
	"act.lot.measure-sieve":             "Cribe 100 g y dé las fracciones.",
}

// sumFindingsES and sumActsES are what single sums have to say.
var (
	sumFindingsES = map[string]string{
		"intake.sieve.guessed":        "lo que hacen esperar las ranuras vecinas no es resultado de un cribado.",
		"steep.sample.not-blotted":    "la muestra se pesó con el agua en la piel: {moisture_wb} es de 1 a 2 puntos de más, secada con papel tendría {low_wb} a {high_wb}.",
		"malt.*.meets":                "{parameter}: sale {found} y cumple el límite de {limit-of}.",
		"malt.kolbach.mean-of-ratios": "el índice Kolbach de una mezcla es su nitrógeno soluble sobre el total, {kolbach}; la media de los índices de las partes, {mean_kolbach}, no lo es.",
		"malt.blend.lots":             "son {lots_n} lotes con un solo nombre; el extracto y el nitrógeno se suman, la filtración no.",
		"malt.blend.room":             "se cumplen todos los límites con {least_tenths} a {most_tenths} de la segunda malta.",
		"malt.blend.no-room":          "ninguna mezcla de estas dos cumple todos los límites.",
	}
	sumActsES = map[string]string{
		"act.steep.blot":       "Seque la muestra con papel y pésela de nuevo antes de juzgar el remojo.",
		"act.malt.blend-again": "Tome menos de la malta que no cumple, y analice la mezcla antes de que salga.",
		"act.malt.disclose":    "Informe al cervecero de cada uno.",
		"act.malt.third":       "Úselas por separado, o añada una tercera malta.",
	}
)
