// Package crop says from samples of many farms what a harvest is like: how much
// of it will malt, for which buyers, what is wrong where, and what malt it will
// make.
//
// A survey is read into Samples, each with the tonnes that it stands for, and
// inspected for what is wrong with it. Estimates are design-based: strata of
// district and variety, farms as clusters, weights by tonnes; a farm is the unit
// that chance has drawn, however many samples came of it. Strata with few farms
// borrow from the others by a model of areas. On the same design rest whole
// distributions, the change from last year, the tonnes that each contract takes,
// and the plan of the next survey. Lots drawn from the harvest go through package
// course.
//
// Farms have codes and are never named in a result; strata of few farms are
// withheld.
package crop
