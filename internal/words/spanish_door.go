package words

// doorPhrasesES are what the pages say by which people come in. Those that set
// a house up are said in English.
var doorPhrasesES = map[string]string{
	"door.is":            "{who} ha entrado.",
	"door.sign-in":       "Entrar",
	"door.sign-in.under": "Quien haya olvidado su contraseña pida un enlace a la dirección.",
	"door.sign-out":      "Salir",
	"door.who":           "nombre en el teclado",
	"door.name":          "nombre completo",
	"door.password":      "contraseña",
	"door.password.old":  "contraseña hasta ahora",
	"door.password.new":  "contraseña nueva, de diez letras o más",
	"door.code":          "código que se imprimió donde se abrió la maltería",
	"door.first":         "La primera cuenta",
	"door.first.under":   "Nadie tiene aún cuenta en esta maltería. Quien haga la primera la dirige, y deja entrar a los demás. El código está en la ventana en que se arrancó awn.",
	"door.first.word":    "Crear la cuenta",
	"door.join":          "Le damos la bienvenida, {who}",
	"door.join.under":    "Ponga una contraseña. Esta página funciona una vez.",
	"door.join.word":     "Ponerla y entrar",
	"door.come-in":       "Entrar",
	"door.come-in.under": "El código de esta dirección deja entrar a una persona, una vez.",
	"door.come-in.word":  "Entrar",
}
