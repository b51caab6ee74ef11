# Fits a trial of entries by environments by REML with lme4 and prints what the
# test beside it compares: components, log-likelihood, and the seconds of the fit.
suppressPackageStartupMessages(library(lme4))
arguments <- commandArgs(trailingOnly = TRUE)
d <- read.csv(arguments[1], stringsAsFactors = TRUE)
formula <- as.formula(arguments[2])
started <- proc.time()[["elapsed"]]
# Criterion and optimiser are tightened, so that the answer and not the stop of
# the search is compared.
fit <- lmer(formula, d, REML = TRUE, control = lmerControl(optimizer = "bobyqa", optCtrl = list(rhoend = 1e-9), calc.derivs = FALSE))
seconds <- proc.time()[["elapsed"]] - started
v <- as.data.frame(VarCorr(fit))
for (i in seq_len(nrow(v))) cat(v$grp[i], sprintf("%.12g", v$vcov[i]), "\n")
cat("loglik", sprintf("%.12g", as.numeric(logLik(fit))), "\n")
cat("seconds", sprintf("%.4f", seconds), "\n")
