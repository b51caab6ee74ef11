package words

import (
	"awn/finding"
	"awn/malt"
	"awn/odds"
	"awn/programme"
)

// spanish is the Spanish catalogue: an own translation, from memory of what the
// trade says (docs/method/words.md has the terms). Reports of trials, surveys
// and laboratories, and the pages that set a house up, are not in it yet.
var spanish = language{
	comma: true,

	findings: merged(lotFindingsES, steepFindingsES, germinateFindingsES, kilnFindingsES, courseFindingsES, houseFindingsES, intakeFindingsES, siloFindingsES, rankFindingsES, sumFindingsES, doubtFindingsES, cropFindingsES, labFindingsES),
	acts:     merged(lotActsES, stageActsES, houseActsES, storeActsES, sumActsES, doubtActsES, cropActsES, labActsES),
	lines:    merged(stageLinesES, storeLinesES),
	faults:   merged(documentFaultsES, tradeFaultsES, recordFaultsES, useFaultsES, slipFaultsES),

	phrases:  merged(commonPhrasesES, reportPhrasesES, oddsPhrasesES, housePhrasesES, storePhrasesES, certificatePhrasesES, pagePhrasesES, recordPhrasesES, roomPhrasesES, doorPhrasesES, dutyPhrasesES, designPhrasesES, weeksPhrasesES, chartPhrasesES, readerPhrasesES, tablePhrasesES, apiPhrasesES, phonePhrasesES),
	weekdays: [7]string{"dom", "lun", "mar", "mié", "jue", "vie", "sáb"},
	months:   [12]string{"ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sep", "oct", "nov", "dic"},

	stages: map[string]string{
		"lot": "lote", "plant": "maltería", "programme": "programa", "steep": "remojo", "germinate": "germinación",
		"kiln": "secado", "dress": "desgerminado", "malt": "malta", "brew": "cervecería",
		"intake": "recepción", "silo": "silo", "trial": "ensayo", "survey": "muestreo", "crop": "cosecha", "lab": "laboratorio", "complaint": "reclamación",
	},
	steps: map[string]string{
		"immersion": "inmersión", "air-rest": "reposo al aire", "couch": "montón", "drain": "escurrido", "spray": "rociado",
		"germinate": "crecimiento", "turn": "volteo", "fill": "llenado", "transfer": "traslado",
	},
	readings: map[programme.Reading]string{
		programme.None:              "tiempo",
		programme.Moisture:          "humedad",
		programme.Drained:           "humedad escurrida",
		programme.WorstLayer:        "humedad de la capa más húmeda",
		programme.DriestLayer:       "humedad de la capa más seca",
		programme.TempMean:          "temperatura del grano",
		programme.TempLow:           "temperatura de la capa más fría",
		programme.TempHigh:          "temperatura de la capa más caliente",
		programme.Chit:              "punteado",
		programme.Acrospire:         "acrospira",
		programme.AcrospireP10:      "acrospira del décimo más lento",
		programme.AcrospireP90:      "acrospira del décimo más rápido",
		programme.Age:               "edad de crecimiento",
		programme.DryMatter:         "materia seca",
		programme.WaterTemp:         "temperatura del agua",
		programme.AirOn:             "aire de entrada",
		programme.AirOnRH:           "humedad del aire de entrada",
		programme.AirOff:            "aire de salida",
		programme.AirOffRH:          "humedad del aire de salida",
		programme.Flow:              "caudal de aire",
		programme.Recirculation:     "recirculación",
		programme.OxygenLeast:       "oxígeno mínimo",
		programme.CarbonDioxideMost: "dióxido de carbono máximo",
		programme.Respiration:       "respiración",
		programme.Break:             "quiebre",
		programme.HeaterPower:       "calor al aire",
		programme.FanPower:          "potencia del ventilador",
		programme.TempGap:           "diferencia en el lecho",
		programme.RoomDioxide:       "dióxido de carbono sobre el lecho",
	},
	parameters: map[malt.Parameter]string{
		malt.Moisture:         "humedad",
		malt.ExtractFine:      "extracto, molienda fina",
		malt.ExtractCoarse:    "extracto, molienda gruesa",
		malt.ExtractGap:       "diferencia fino–grueso",
		malt.Colour:           "color",
		malt.ColourBoiled:     "color tras cocción",
		malt.Protein:          "proteína",
		malt.SolubleProtein:   "proteína soluble",
		malt.KolbachIndex:     "índice Kolbach",
		malt.FAN:              "nitrógeno amino libre",
		malt.DiastaticPower:   "poder diastásico",
		malt.AlphaAmylase:     "alfa-amilasa",
		malt.WortBetaGlucan:   "betaglucano del mosto",
		malt.Viscosity:        "viscosidad",
		malt.Friability:       "friabilidad",
		malt.PartlyUnmodified: "en parte sin modificar",
		malt.WhollyUnmodified: "del todo sin modificar",
		malt.DMSPrecursor:     "precursor de DMS",
		malt.AttenuationLimit: "atenuación límite",
		malt.Screenings:       "cribaduras",
		malt.SpiritYield:      "rendimiento en alcohol",
	},
	verdicts: map[malt.Word]string{
		malt.Passes: "cumple", malt.Fails: "no cumple", malt.CannotSay: "no se puede decir",
	},
	reasons: map[malt.Reason]string{
		malt.Given:            "",
		malt.Missing:          "nadie lo halló y no se puede predecir",
		malt.UnknownParameter: "no es un valor de un análisis de malta",
		malt.BasisMissing:     "no se dice su base",
		malt.MoistureMissing:  "la base depende de la humedad, que no se conoce",
		malt.ExtractMissing:   "la base depende del extracto, que no se conoce",
		malt.OutsideScale:     "la conversión no llega tan lejos",
		malt.LimitEmpty:       "el límite no tiene ni mínimo ni máximo",
	},
	standings: map[odds.Standing]string{
		odds.Measured: "medido",
		odds.Checked:  "predicho, comprobado",
		odds.Sourced:  "publicado, sin comprobar",
		odds.Practice: "práctica común",
		odds.Recalled: "recordado, no leído",
		odds.Weak:     "débil: ajústelo a la maltería",
	},
	factors: factorNamesES, decisions: decisionNamesES, bars: barNamesES, turns: turnNamesES, goings: goingNamesES, inputs: inputNamesES,
	severities: map[finding.Severity]string{
		finding.Note: "nota", finding.Caution: "precaución", finding.Alarm: "alarma",
	},
}

// commonPhrasesES are what this package itself puts together.
var commonPhrasesES = map[string]string{
	"list.and":   " y ",
	"moment":     "{weekday} {day}, {time}",
	"day":        "{day} {month} {year}",
	"span.hours": "{hours}\u00a0h",
	"span.days":  "{days}\u00a0d",
	"span.both":  "{days}\u00a0d\u00a0{hours}\u00a0h",
}
