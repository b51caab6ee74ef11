package words

// spanish is the Spanish catalogue.
var spanish = language{comma: true}
