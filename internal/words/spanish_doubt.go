package words

// doubtFindingsES are about how far counts, readings and scales can be trusted,
// and about a bed that tells on its air.
var doubtFindingsES = map[string]string{
	"odds.limit.met":    "la probabilidad de que el lote cumpla de verdad el límite es {chance_tenths}.",
	"odds.limit.missed": "la probabilidad de que el lote cumpla de verdad el límite es solo {chance_tenths}.",
	"odds.limit.near":   "la probabilidad de que el lote cumpla de verdad el límite es {chance_tenths}: demasiado cerca para un sí o un no.",

	"lab.results.agree":     "dos laboratorios honrados difieren tanto o más en {chance_tenths} de los casos: no hay motivo para dudar de ninguno.",
	"lab.results.differ":    "dos laboratorios honrados difieren tanto o más solo en {chance_tenths} de los casos: uno de los dos se aparta, y los valores solos no dicen cuál.",
	"lab.replicates.agree":  "las repeticiones distan {range_tenths} y el muestreo explica {tolerated_tenths}: el ensayo vale.",
	"lab.replicates.differ": "las repeticiones distan {range_tenths}, y el muestreo no explica más de {tolerated_tenths}: el ensayo no vale.",

	"intake.toxin.below":  "que lea {read_mg_kg:x}\u00a0mg/kg deja el lote entre {low_mg_kg:x} y {high_mg_kg:x} (90 de 100), por debajo del límite de {limit_mg_kg:x}.",
	"intake.toxin.unsure": "que lea {read_mg_kg:x}\u00a0mg/kg deja el lote entre {low_mg_kg:x} y {high_mg_kg:x} (90 de 100): puede estar a un lado u otro del límite de {limit_mg_kg:x}.",
	"intake.toxin.above":  "que lea {read_mg_kg:x}\u00a0mg/kg deja el lote entre {low_mg_kg:x} y {high_mg_kg:x} (90 de 100), por encima del límite de {limit_mg_kg:x}.",

	"germinate.passing.short":  "el calor del lecho sale con unos {passing_m3_h_t}, y se pidieron {asked_m3_h_t}.",
	"germinate.passing.none":   "el lecho se calienta {rise_k} por hora, tanto como todo su calor: apenas puede pasar aire, o se calienta más de lo dicho.",
	"germinate.passing.untold": "el lecho no está más caliente que su aire; por su calor no se puede decir cuánto pasa.",
	"germinate.limit.passed":   "la capa más caliente está en el límite de {limit_c} o lo ha pasado.",
	"germinate.limit.soon":     "tal como se calienta ahora llega a {limit_c} en {hours_h}; sin aire llegaría en {still_h} como pronto.",
	"germinate.limit.far":      "tal como se calienta ahora llega a {limit_c} en {hours_h}; sin aire llegaría en {still_h} como pronto.",
	"germinate.bed.steady":     "no se calienta; sin aire llegaría a {limit_c} en {still_h} como pronto.",

	"weigh.readings.unchecked": "aquí nada comprueba nada: con tan pocas lecturas cada una está sola.",
	"weigh.readings.agree":     "las {readings_n} lecturas concuerdan: las honradas difieren tanto o más en {chance} de los casos.",
	"weigh.mass.suspect":       "las lecturas honradas difieren tanto solo en {chance:tenths} de los casos. Primera sospechosa, con probabilidad de {first}: la masa en la parte {place_n}. Lee {read_kg}, a {away_x} desviaciones; por todas las demás es {would_kg}.",
	"weigh.moisture.suspect":   "las lecturas honradas difieren tanto solo en {chance:tenths} de los casos. Primera sospechosa, con probabilidad de {first}: la humedad en la parte {place_n}. Lee {read_wb}, a {away_x} desviaciones; por todas las demás es {would_wb}.",
	"weigh.off.suspect":        "las lecturas honradas difieren tanto solo en {chance:tenths} de los casos. Primera sospechosa, con probabilidad de {first}: lo que se sacó en la parte {place_n}. Lee {read_kg}, a {away_x} desviaciones; por todas las demás es {would_kg}.",
	"weigh.lost.suspect":       "las lecturas honradas difieren tanto solo en {chance:tenths} de los casos. Primera sospechosa, con probabilidad de {first}: la parte perdida sin pesar en la parte {place_n}. Se toma {taken_dm}, a {away_x} desviaciones; por todas las demás es {would_dm}.",
	"weigh.suspects.alike":     "las demás no distinguen {alike_n} de las lecturas: un error en cualquiera se vería igual.",
	"weigh.rest.differs":       "sin la primera sospechosa las demás aún difieren, como las honradas en {chance:tenths} de los casos: más de una se aparta, o entró o salió grano que nadie pesó.",
}

var doubtActsES = map[string]string{
	"act.odds.look-at-more":    "Cuente más granos o hágalo medir otra vez, y decida después.",
	"act.lab.third-laboratory": "Compruebe que ambos usaron un método, una base y una muestra sellada; después haga que la lea un tercer laboratorio.",
	"act.lab.take-mean":        "Tome la media de los dos.",
	"act.lab.test-again":       "Ensáyelo otra vez con repeticiones nuevas.",
	"act.intake.toxin-apart":   "Manténgalo aparte y no lo rebaje mezclando; lo que puede hacerse con él lo dicen la ley del lugar y su muestra oficial.",
	"act.intake.larger-sample": "Tome una muestra mayor con más incrementos, muela y analice más de ella, y decida entonces.",
	"act.germinate.find-air":   "Revise el ventilador, sus compuertas y el falso suelo, y voltee el lecho si está enredado.",
	"act.germinate.cool-now":   "Ponga el aire más frío o dé más ahora; si no hay más que dar, voltee el lecho.",
	"act.weigh.read-again":     "Péselo, o léalo, otra vez antes de que nadie pague o anote por ello.",
	"act.weigh.read-more":      "Pese o lea en un punto más, con otro instrumento.",
	"act.weigh.read-all":       "Lea todo otra vez, y busque grano que se añadiera o quitara.",
}
