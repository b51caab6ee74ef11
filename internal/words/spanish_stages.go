package words

// Sentences of the steep and of germination.
var (
	steepFindingsES = map[string]string{
		"steep.oxygen.short": "a los granos les faltó oxígeno, no agua: tenían {moisture_wb} y recibieron apenas {least} del oxígeno " +
			"que pedían[ tras {at}], lo que costó {lost} del tiempo hasta puntear; han punteado {chit}.",
		"steep.chit.held": "{held} de los granos se ahogaron por una inmersión de {immersed_h}; los granos sensibles al agua aguantan {free_h}.",
		"steep.moisture.low": "el grano sale del remojo con {drained_wb} escurrido, los granos más secos con {driest_wb} por dentro; " +
			"por debajo de {least_wb} la modificación se queda atrás.",
		"steep.moisture.high": "el grano sale del remojo con {drained_wb} escurrido, los granos más secos con {driest_wb} por dentro; " +
			"por encima de {most_wb} cuesta contener el crecimiento.",
		"steep.rest.hot": "el grano en reposo llegó a {temp_c}[ tras {at}]; por encima de {limit_c} puntea de forma desigual.",
		"steep.co2.high": "el dióxido de carbono entre los granos llegó a {co2:tenths}[ tras {at}]; por encima de {limit:tenths} el punteado se retrasa, y las personas " +
			"corren peligro por encima de {people_limit:tenths}. Mida el aire antes de que entre nadie; deciden las normas locales.",
		"steep.grain.frozen":     "el grano mojado bajó a {temp_c}[ tras {at}] y se heló.",
		"steep.water.warm":       "el agua de remojo llegó a {water_c}[ tras {at}]; por encima de {limit_c} los granos se dañan con facilidad.",
		"steep.vessel.overfull":  "el grano hinchado y su agua ocupan {volume_m3}[ tras {at}], en la cuba caben {vessel_m3}.",
		"steep.suction.short":    "el programa aspira {lack_m3_h} de aire más que los {vessel_m3_h} que da la cuba.",
		"steep.aeration.short":   "el programa sopla {lack_m3_h} de aire más que los {vessel_m3_h} que da la cuba.",
		"steep.chit.impossible":  "solo {growing} de los granos llegarán a crecer: este lote no da malta.",
		"steep.water.too-little": "el agua que se echó, {used_m3}, es menos que los {absorbed_m3} que absorbió el grano.",
	}

	germinateFindingsES = map[string]string{
		"germinate.air.warm": "el aire bajo el lecho se quería a {asked_c} y llegó a {reached_c}, durante {hours_h}[ a partir de {at}]: " +
			"fuera hay {outside_c}, y el ventilador calienta el aire {fan_heat_k}.",
		"germinate.air.cold":  "el aire bajo el lecho estuvo hasta {below_k} más frío de lo pedido, durante {hours_h}[ a partir de {at}].",
		"germinate.air.dry":   "el aire bajo el lecho estuvo hasta {below_rh} de humedad más seco de lo pedido, durante {hours_h}[ a partir de {at}]; el humidificador satura {humidifier}.",
		"germinate.air.short": "faltó {missing_share} del caudal de aire[ a partir de {at}]: el ventilador alcanza {reached_kg_m2_s} contra el lecho.",
		"germinate.bed.hot":   "entre la capa más fría y la más caliente[, en la {spot},] hubo {gap_k}, durante {hours_h}[ a partir de {at}].",
		"germinate.bed.warm":  "la capa más caliente[, en la {spot},] llegó a {temp_high_c}, durante {hours_h}[ a partir de {at}]; ahí el crecimiento decae.",
		"germinate.bed.dry": "el lecho se secó de {start_wb} a {moisture_wb}: {evaporated_kg} de agua se fueron con el aire, " +
			"y quedan {water_kg}.",
		"germinate.turn.missing": "el lecho estuvo sin voltear {unturned_h}[ a partir de {at}]; las raicillas se enredan.",
		"germinate.oxygen.gone": "el oxígeno entre los granos[ de la {spot}] bajó a {oxygen_least} del que tiene el aire fresco[ tras {at}][, {after_stop_min} después de parar el ventilador], " +
			"durante {hours_h}; fermentaron {fermented_kg} de materia seca y el crecimiento se detuvo.",
		"germinate.fan.stopped-breathless": "con el ventilador parado {stopped_h}[ a partir de {at}] el primer límite es el oxígeno, a los {soonest_min} como pronto[ y a los {usual_min} según el cálculo]: " +
			"entonces el crecimiento se detiene y los granos fermentan. Al final de la parada el lecho tiene una media de {mean_low_c} a {mean_high_c} y una capa más caliente de {hottest_low_c} a {hottest_high_c}, según el tiro, " +
			"y el aire entre los granos contiene hasta {co2_most} de dióxido de carbono.",
		"germinate.fan.stopped-hot": "con el ventilador parado {stopped_h}[ a partir de {at}] el primer límite es el calor, a los {soonest_min} como pronto[ y a los {usual_min} según el cálculo]: " +
			"al final el lecho tiene una media de {mean_low_c} a {mean_high_c} y una capa más caliente de {hottest_low_c} a {hottest_high_c}, según el tiro, " +
			"y el aire entre los granos contiene hasta {co2_most} de dióxido de carbono.",
		"germinate.hold.missed": "había que mantener {reading} en {asked:reading} y estuvo en {reached} con su mando en un tope, durante {missed_h}[ a partir de {at}].",
		"germinate.vigour.lost": "el lecho ha perdido {vigour_lost} de su ritmo de crecimiento por horas sin oxígeno.",
		"germinate.co2.room": "el aire sobre el lecho tuvo {co2_most:tenths} de dióxido de carbono, durante {hours_h}[ a partir de {at}]; el límite de una jornada de trabajo es {limit:tenths}. " +
			"Mida el aire antes de que entre nadie; deciden las normas locales.",
		"germinate.corns.unmodified": "{whole_corns:tenths} de los granos están del todo sin modificar y {partly_corns:tenths} en parte; {idle:tenths} no crecieron nunca.",
		"germinate.corns.overgrown":  "{overgrown:tenths} de los granos están sobrecrecidos; la acrospira media es {acrospire:x} del grano.",
	}
)

// Sentences of the kiln and of dressing.
var kilnFindingsES = map[string]string{
	"kiln.strip.wet": "no es seguro descargar: la capa más húmeda[, la {layer} desde el suelo][ de la {spot}], tiene {worst_layer_wb} donde {limit_wb} es lo máximo; " +
		"la media de {mean_wb} lo oculta.",
	"kiln.strip.hot": "no es seguro descargar: la capa más caliente[, la {layer} desde el suelo][ de la {spot}], está a {hottest_c} donde {limit_c} es lo máximo.",
	"kiln.recirculation.early": "se recirculó aire hasta {recirculation} antes del quiebre[ de la {spot}][, a partir de {at}], durante {early_h}; el aire húmedo " +
		"deja mojado lo alto del lecho[ (quiebre tras {break_h})].",
	"kiln.break.none":    "no se vio ningún quiebre[: el aire de salida no dejó su meseta de {plateau_c}].",
	"kiln.break.top-wet": "en el quiebre[, tras {at},] la capa de arriba aún tenía {worst_layer_wb}; por encima de {limit_wb} una rampa caliente la cuece.",
	"kiln.fan.stopped":   "el ventilador estuvo parado {stopped_h} con grano en el horno.",
	"kiln.decks.dropped-wet": "el piso de arriba no había quebrado cuando se dejó caer la partida[, tras {at}]: tenía {moisture_wb} y {worst_layer_wb} en lo más húmedo, " +
		"tras un ciclo de {cycle_h}; el aire húmedo del piso de abajo no la seca.",
	"kiln.decks.unsettled":       "tras {runs_n} vueltas los dos pisos aún mueven la humedad final {moved_wb:tenths} puntos de una partida a la siguiente.",
	"kiln.hold.missed":           "había que mantener {reading} en {asked:reading} y estuvo en {reached} con su mando en un tope, {missed_h} en total[, la última vez tras {at}].",
	"kiln.fan.stopped-heated":    "el ventilador estuvo parado {stopped_h}[ a partir de {at}] y el calor encendido {heated_h} de ese tiempo: la capa del suelo llegó a {floor_c} mientras encima nada se seca.",
	"kiln.fan.short":             "el ventilador dio {given_share} del caudal pedido[ tras {at}], {short_h} en total; el lecho estaba a {bed_pa}.",
	"kiln.air-on.missed":         "el aire de entrada se quedó hasta {below_k} por debajo de su consigna[ tras {at}], {missed_h} en total: el quemador no da más.",
	"kiln.burner.cycling":        "el quemador funcionó por debajo de su mínimo {cycling_h} y se encenderá y apagará.",
	"kiln.recirculation.limited": "se pidió {asked} de aire de retorno y las compuertas dan {given}.",
	"dress.loss.high": "{loss_dm} de la materia seca se pierde al maltear: {respired_dm} respirada, {culms_dm} raicillas, " +
		"{leached_dm} lixiviada.",
}

// Sentences of a course.
var courseFindingsES = map[string]string{
	"malt.*.below": "{parameter}: sale {found} donde {limit-of} es el mínimo.",
	"malt.*.above": "{parameter}: sale {found} donde {limit-of} es el máximo.",
	"malt.*.spot-below": "{parameter}: cumple en el conjunto del lecho y falla[ en la {spot}]: {found} donde {limit-of} es el mínimo, en {floor_share} " +
		"del suelo[, que recibió {air_x} del aire medio][ y quebró tras {spot_break_h}, la primera zona tras {first_break_h}][; se recirculó aire a partir de {recirculated_h}].",
	"malt.*.spot-above": "{parameter}: cumple en el conjunto del lecho y falla[ en la {spot}]: {found} donde {limit-of} es el máximo, en {floor_share} " +
		"del suelo[, que recibió {air_x} del aire medio][ y quebró tras {spot_break_h}, la primera zona tras {first_break_h}][; se recirculó aire a partir de {recirculated_h}].",
	"programme.condition.unmet":      "{reading} debía llegar a {asked:reading} y estaba en {reached} cuando se agotó el último plazo del paso, {latest_h}[, tras {at}].",
	"programme.addition.unpermitted": "se añade algo que nadie dice permitir.",
	"programme.addition.uncounted":   "se añade algo cuyo efecto no se cuenta: no se da ningún factor.",
	"programme.addition.factor":      "el efecto de una adición se cuenta solo con los factores que da el programa.",
	"begin.age.assumed":              "no se dio la edad de crecimiento del grano; se toman {age_d}.",
}

var stageActsES = map[string]string{
	"act.programme.hold-wider":    "Dé límites más amplios al mando, o mantenga otro valor.",
	"act.addition.ask-permission": "Pregunte al mercado y al cliente, y diga quién lo permite; o no lo añada.",
	"act.addition.give-factor":    "Dé el factor que ha medido la maltería, o cuente con que la partida salga distinta.",
	"act.addition.drop-factor":    "Quite el factor si no se midió en esta maltería.",
	"act.programme.later":         "Dé al paso un plazo más largo, o ajustes que alcancen su condición.",
	"act.begin.measure-acrospire": "Mida cincuenta acrospiras y dé su media.",
	"act.lot.do-not-malt":         "No maltee este lote; analícelo de nuevo tras unas semanas si está en dormición, y véndalo si está muerto.",

	"act.steep.shorter-immersion-longer-rest": "Acorte las inmersiones y dé ese tiempo a los reposos entre ellas.",
	"act.steep.more-suction":                  "Aspire más aire a través del grano escurrido.",
	"act.steep.more-suction-or-cast":          "Aspire más aire a través del grano escurrido, o descárguelo antes a germinación.",
	"act.steep.longer-immersion-or-spray":     "Alargue la última inmersión, o rocíe en la germinación.",
	"act.steep.shorter-last-immersion":        "Acorte la última inmersión.",
	"act.steep.warmer-air-or-water":           "Use agua más templada, o aspire aire más templado.",
	"act.steep.colder-water":                  "Use agua más fría.",
	"act.steep.smaller-piece":                 "Remoje una partida más pequeña.",
	"act.plant.more-suction":                  "Pida menos aspiración, o instale un ventilador mayor.",
	"act.plant.more-aeration":                 "Pida menos aireación, o instale un soplante mayor.",
	"act.plant.more-steep-water":              "Eche más agua en cada inmersión.",

	"act.germinate.more-return-or-cooling":   "Tome más aire de retorno de noche y menos de día, o enfríe el aire.",
	"act.germinate.more-return-or-heat":      "Tome más aire de retorno, o caliéntelo.",
	"act.germinate.less-air-or-bed":          "Pida menos aire, o cargue un lecho más delgado.",
	"act.germinate.more-air":                 "Dé más aire.",
	"act.germinate.colder-air":               "Ponga el aire más frío, y antes.",
	"act.germinate.spray":                    "Rocíe en los volteos, o mantenga el aire más cerca de la saturación.",
	"act.germinate.spread-thinner":           "Extienda la era más delgada.",
	"act.germinate.turn":                     "Voltee más a menudo.",
	"act.germinate.restart-fan-open-dampers": "Arranque otra vez el ventilador con las compuertas abiertas; no lo pare tanto tiempo.",
	"act.germinate.stop-by-oxygen": "Arranque el ventilador antes de eso, solo con aire fresco. Si no puede funcionar: abra primero todas las compuertas y puertas, después voltee el lecho, y vuelva a voltearlo cada hora. " +
		"El dióxido de carbono queda en la caja y debajo: mida el aire antes de que entre nadie; deciden las normas locales.",
	"act.germinate.stop-by-heat": "Arranque el ventilador antes de eso, solo con aire fresco. Si no puede funcionar: abra primero todas las compuertas y puertas, después voltee el lecho y rocíelo con agua fría. " +
		"El dióxido de carbono queda en la caja y debajo: mida el aire antes de que entre nadie; deciden las normas locales.",
	"act.germinate.air-the-room-before-entry": "Abra las compuertas y ventile bien la sala antes de que entre nadie.",
	"act.germinate.longer-or-sound-barley":    "Deje crecer más tiempo o con más humedad; aparte los granos muertos y en dormición antes del remojo.",
	"act.germinate.shorter-or-colder":         "Deje crecer menos tiempo o con más frío.",
	"act.plant.more-cooling":                  "Instale más frío, o no ponga el aire más frío de lo que la maltería puede dar.",
	"act.kiln.recirculate-after-break":        "Recircule solo después del quiebre.",
	"act.kiln.recirculate-after-last-break":   "Recircule cuando haya quebrado la última zona, o nivele el lecho.",
	"act.bed.level":                           "Nivele el lecho, o dé a la peor zona el aire y el tiempo que necesita.",
	"act.kiln.extend-fresh-air":               "Siga secando con aire fresco antes de que acabe el golpe de fuego.",
	"act.kiln.cool-longer":                    "Enfríe más tiempo antes de descargar.",
	"act.kiln.longer-cycle":                   "Dé a cada piso más horas o más aire, o deje entrar aire caliente entre los pisos.",
	"act.kiln.name-lower-piece":               "Nombre la partida del piso de abajo, o dé más horas a cada piso.",
	"act.kiln.heat-off-first":                 "Corte primero el calor, abra después las compuertas y arranque luego el ventilador; no entre en el horno antes de medir su aire.",
	"act.kiln.keep-fan-running":               "Mantenga el ventilador en marcha mientras haya grano en el horno.",
	"act.kiln.ask-less-flow":                  "Pida menos aire, o cargue un lecho más delgado.",
	"act.kiln.ask-more-flow":                  "Pida más aire, o use un quemador menor.",
	"act.kiln.ask-less-recirculation":         "No pida más aire de retorno del que dan las compuertas.",
	"act.kiln.cure-cooler":                    "Dé el golpe de fuego más frío.",
	"act.kiln.cure-hotter":                    "Dé el golpe de fuego más caliente.",
	"act.kiln.cure-longer":                    "Dé el golpe de fuego más largo.",
	"act.kiln.cure-shorter":                   "Dé el golpe de fuego más corto.",
	"act.germinate.longer":                    "Deje crecer más tiempo o con más calor.",
	"act.lot.choose-another":                  "Tome otro lote para esta malta, o pida otro límite.",
	"act.plant.better-humidifier":             "Repare o amplíe el humidificador.",
}

// Names of balance lines. The stage is said beside them.
var stageLinesES = map[string]string{
	"steep.respired": "respirado", "steep.fermented": "fermentado", "steep.leached": "lixiviado", "steep.absorbed": "absorbido",
	"steep.sprayed": "rociado", "steep.evaporated": "evaporado", "steep.metabolic": "formado al respirar", "steep.air": "aire",
	"steep.exchanged": "intercambiado con el agua", "steep.walls": "paredes", "steep.water": "agua", "steep.voids": "aire entre granos",
	"germinate.respired": "respirado", "germinate.fermented": "fermentado", "germinate.evaporated": "evaporado",
	"germinate.sprayed": "rociado", "germinate.metabolic": "formado al respirar", "germinate.air": "aire",
	"germinate.walls": "paredes", "germinate.voids": "aire entre granos", "germinate.air-on": "aire de entrada", "germinate.air-off": "aire de salida",
	"kiln.respired": "respirado", "kiln.air-on": "aire de entrada", "kiln.air-off": "aire de salida",
}
