package words

// tablePhrasesES are what tables say of themselves.
var tablePhrasesES = map[string]string{
	"table.find":   "buscar",
	"table.look":   "Buscar",
	"table.found":  "{count} de {all} filas",
	"table.rows":   "filas {first} a {last} de {count}",
	"table.before": "las filas anteriores",
	"table.after":  "las filas siguientes",
}

// apiPhrasesES are what the page for people who write programs says.
var apiPhrasesES = map[string]string{
	"page.api.pages":    "Las listas llegan por páginas: {usual} si no se da límite, {most} como máximo. La dirección de la página siguiente está como “next” en la respuesta y en Link; su cursor vale aunque entren asientos.",
	"page.api.tags":     "Las respuestas llevan un ETag. Envíelo como If-None-Match, y lo que sigue igual se responde con 304. Lo que otro puede haber cambiado se cambia con If-Match.",
	"page.api.twice":    "Un asiento trae su propio id, un UUID hecho donde se escribió. El mismo asiento enviado dos veces se anota una y se responde con lo anotado; otro con ese id se rechaza con 409.",
	"page.api.wrong":    "Lo erróneo llega como application/problem+json con todos los errores, cada uno con su código:",
	"page.api.statuses": "Rechazos por estado",
	"page.api.codes":    "Códigos de un rechazo",
	"page.api.must":     "(obligatorio)",
	"page.api.fields":   "Campos, cada uno un texto",
	"page.api.as-kept":  "Responde el propio documento, byte a byte.",
	"page.api.may":      "Para:",
	"page.api.anybody":  "Para quien pueda entrar.",
	"page.api.refuses":  "Rechaza con",
}
