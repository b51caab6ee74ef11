package variety_test

import (
	"context"
	"fmt"

	"awn/variety"
)

// Three barleys at three sites, two plots each; Holm is the check.
func ExampleTrials_Analyse() {
	trials, _ := variety.Read([][]string{
		{"variety", "site", "rep", "yield [t/ha]"},
		{"Holm", "Quay", "1", "6.1"}, {"Holm", "Quay", "2", "6.0"}, {"Skerry", "Quay", "1", "6.9"}, {"Skerry", "Quay", "2", "7.0"}, {"Tarn", "Quay", "1", "6.2"}, {"Tarn", "Quay", "2", "6.4"},
		{"Holm", "Mere", "1", "5.0"}, {"Holm", "Mere", "2", "5.2"}, {"Skerry", "Mere", "1", "6.1"}, {"Skerry", "Mere", "2", "5.9"}, {"Tarn", "Mere", "1", "5.0"}, {"Tarn", "Mere", "2", "5.3"},
		{"Holm", "Down", "1", "7.1"}, {"Holm", "Down", "2", "7.3"}, {"Skerry", "Down", "1", "8.0"}, {"Skerry", "Down", "2", "8.2"}, {"Tarn", "Down", "1", "7.2"}, {"Tarn", "Down", "2", "7.4"},
	}, variety.Layout{Checks: []string{"Holm"}})
	a, err := trials.Analyse(context.Background(), variety.Question{Trait: "yield"})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range a.Against("Holm", 0.95) {
		fmt.Printf("%s: %+.2f t/ha, has to exceed %.2f, better with chance %.2f\n", c.Entry, c.Difference.Value, c.Need, c.Beats)
	}
	// Output:
	// Skerry: +0.90 t/ha, has to exceed 0.16, better with chance 1.00
	// Tarn: +0.13 t/ha, has to exceed 0.16, better with chance 0.98
}
