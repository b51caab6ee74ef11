package unit

import "strings"

// Nearest returns the word among words that differs from got in the fewest
// letters, or "" if none is close enough to be meant.
func Nearest(got string, words []string) string {
	got = shorten(got, 64) // a longer word is no slip of the pen
	nearest, least := "", 1+len([]rune(got))/3
	for _, word := range words {
		if n := slips(got, word); n < least || n == least && nearest == "" {
			nearest, least = word, n
		}
	}
	return nearest
}

// slips counts the letters to change, add, drop or swap with their neighbour
// that turn a into b. Case does not count.
func slips(a, b string) int {
	x, y := []rune(strings.ToLower(a)), []rune(strings.ToLower(b))
	before, last, row := make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := range x {
		row[0] = i + 1
		for j := range y {
			change := 1
			if x[i] == y[j] {
				change = 0
			}
			row[j+1] = min(last[j]+change, last[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && x[i] == y[j-1] && x[i-1] == y[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(y)]
}

// shorten cuts text to n letters and marks the cut.
func shorten(text string, n int) string {
	if r := []rune(text); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return text
}
