// Package mixed fits linear mixed models: what part of a figure is owed to the
// variety, the place, the year, the plot and to chance.
//
// A model is a column of observations and, for each source of difference, the
// level that every observation belongs to. Sources are fixed or random. The
// variances of the random ones are found by restricted maximum likelihood; a
// variance that would be negative is zero. Besides the fit there are the
// quantiles that comparisons of many means need.
//
// The equations are those of Henderson, factorised as a sparse matrix, so that
// thousands of observations with hundreds of varieties are a matter of
// milliseconds.
package mixed
