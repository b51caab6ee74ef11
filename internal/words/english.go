package words

import (
	"awn/finding"
	"awn/malt"
	"awn/odds"
	"awn/programme"
)

// english is the English catalogue. Findings, acts and balance lines stand in
// a file for each stage.
var english = language{
	findings: merged(lotFindings, steepFindings, germinateFindings, kilnFindings, courseFindings, houseFindings, intakeFindings, siloFindings, rankFindings, sumFindings, doubtFindings, cropFindings, labFindings),
	acts:     merged(lotActs, stageActs, houseActs, storeActs, sumActs, doubtActs, cropActs, labActs),
	lines:    merged(stageLines, storeLines),

	phrases:  merged(commonPhrases, reportPhrases, oddsPhrases, housePhrases, storePhrases, rankPhrases, certificatePhrases, cropPhrases, pagePhrases, recordPhrases, roomPhrases, doorPhrases, labPhrases, dutyPhrases, designPhrases, weeksPhrases, chartPhrases, readerPhrases, tablePhrases, apiPhrases, phonePhrases),
	weekdays: [7]string{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"},
	months:   [12]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"},

	stages: map[string]string{
		"lot": "lot", "plant": "house", "programme": "programme", "steep": "steep", "germinate": "germination",
		"kiln": "kiln", "dress": "dressing", "malt": "malt", "brew": "brewhouse",
		"intake": "intake", "silo": "silo", "trial": "trial", "survey": "survey", "crop": "harvest", "lab": "laboratory", "complaint": "complaint",
	},
	steps: map[string]string{
		"immersion": "immersion", "air-rest": "air rest", "couch": "couch", "drain": "drain", "spray": "spray",
		"germinate": "growth", "turn": "turn", "fill": "filling", "transfer": "transfer",
	},
	readings: map[programme.Reading]string{
		programme.None:              "time",
		programme.Moisture:          "moisture",
		programme.Drained:           "moisture drained",
		programme.WorstLayer:        "moisture of the wettest layer",
		programme.DriestLayer:       "moisture of the driest layer",
		programme.TempMean:          "grain temperature",
		programme.TempLow:           "temperature of the coolest layer",
		programme.TempHigh:          "temperature of the warmest layer",
		programme.Chit:              "chit",
		programme.Acrospire:         "acrospire",
		programme.AcrospireP10:      "acrospire of the slowest tenth",
		programme.AcrospireP90:      "acrospire of the fastest tenth",
		programme.Age:               "growth age",
		programme.DryMatter:         "dry matter",
		programme.WaterTemp:         "water temperature",
		programme.AirOn:             "air-on",
		programme.AirOnRH:           "humidity of air-on",
		programme.AirOff:            "air-off",
		programme.AirOffRH:          "humidity of air-off",
		programme.Flow:              "airflow",
		programme.Recirculation:     "recirculation",
		programme.OxygenLeast:       "least oxygen",
		programme.CarbonDioxideMost: "most carbon dioxide",
		programme.Respiration:       "respiration",
		programme.Break:             "break",
		programme.HeaterPower:       "heat to air",
		programme.FanPower:          "fan power",
		programme.TempGap:           "difference in the bed",
		programme.RoomDioxide:       "carbon dioxide above the bed",
	},
	parameters: map[malt.Parameter]string{
		malt.Moisture:         "moisture",
		malt.ExtractFine:      "extract, fine",
		malt.ExtractCoarse:    "extract, coarse",
		malt.ExtractGap:       "fine–coarse difference",
		malt.Colour:           "colour",
		malt.ColourBoiled:     "boiled colour",
		malt.Protein:          "protein",
		malt.SolubleProtein:   "soluble protein",
		malt.KolbachIndex:     "S/T (Kolbach)",
		malt.FAN:              "free amino nitrogen",
		malt.DiastaticPower:   "diastatic power",
		malt.AlphaAmylase:     "alpha-amylase",
		malt.WortBetaGlucan:   "wort beta-glucan",
		malt.Viscosity:        "viscosity",
		malt.Friability:       "friability",
		malt.PartlyUnmodified: "partly unmodified",
		malt.WhollyUnmodified: "wholly unmodified",
		malt.DMSPrecursor:     "DMS precursor",
		malt.AttenuationLimit: "attenuation limit",
		malt.Screenings:       "screenings",
		malt.SpiritYield:      "spirit yield",
	},
	verdicts: map[malt.Word]string{
		malt.Passes: "passes", malt.Fails: "fails", malt.CannotSay: "cannot say",
	},
	reasons: map[malt.Reason]string{
		malt.Given:            "",
		malt.Missing:          "nobody found it and it cannot be predicted",
		malt.UnknownParameter: "it is not a figure of a malt analysis",
		malt.BasisMissing:     "its basis is not stated",
		malt.MoistureMissing:  "the basis turns on the moisture, which is not known",
		malt.ExtractMissing:   "the basis turns on the extract, which is not known",
		malt.OutsideScale:     "the conversion does not reach that far",
		malt.LimitEmpty:       "the limit has neither a least nor a most",
	},
	standings: map[odds.Standing]string{
		odds.Measured: "measured",
		odds.Checked:  "predicted, checked",
		odds.Sourced:  "published, not checked",
		odds.Practice: "common practice",
		odds.Recalled: "recalled, not read",
		odds.Weak:     "weak: tune to the house",
	},
	factors: factorNames, decisions: decisionNames, bars: barNames, turns: turnNames, goings: goingNames, terms: termNames, inputs: inputNames,
	severities: map[finding.Severity]string{
		finding.Note: "note", finding.Caution: "caution", finding.Alarm: "alarm",
	},
}
