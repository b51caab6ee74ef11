package words

// designPhrasesES are what the page says on which a programme is designed,
// beyond what an account says.
var designPhrasesES = map[string]string{
	"pull.at":      "{what}, a las {hour}",
	"pull.waits":   "{what}, a las {hour}, espera a {until} y no se puede mover",
	"pull.waiting": "Esperan al grano y no se pueden mover: {list}.",
	"pull.item":    "{what} ({until})",
	"pull.drain":   "escurrir el remojo {number}",
	"pull.fill":    "llenar el remojo {number}",
	"pull.cast":    "pasar al montón",
	"pull.begin":   "empezar {what}",
	"pull.growth":  "empezar el crecimiento {number}",
	"pull.load":    "cargar el horno",
	"pull.strip":   "descargar el horno",
	"pull.turn":    "primer volteo",
	"pull.how":     "Arrastre por las horas una clavija llena, muévala con las flechas, o escriba su hora; el campo de al lado la sigue. Las clavijas huecas esperan al grano.",
}
