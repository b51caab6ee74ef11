// Package lab holds what a barley and malt laboratory adds to a figure: how a
// germination test is counted and what its counts are worth, the methods by
// body and number, and how far two results of one method may differ.
package lab
