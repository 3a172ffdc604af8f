# What a brief says of its own exported lives, computed by survival. Writes expected.json.
#   Rscript make-brief.R LIVES.csv > expected.json
library(survival)
lives <- read.csv(commandArgs(TRUE)[1])
number <- function(x) ifelse(is.na(x), "null", formatC(x, digits = 17, format = "g"))
watched <- lives[!is.na(lives$exit_miles) & lives$exit_miles > lives$entry_miles, ]
told <- watched[watched$lubricant %in% c("oil", "semi-fluid"), ]
fit <- survfit(Surv(entry_miles, exit_miles, state == "failed") ~ lubricant, told, conf.type = "log-log")
at <- quantile(fit, c(0.1, 0.5))
rows <- sapply(1:2, function(i) sprintf('"%s": { "b10Life": [%s], "medianLife": [%s], "failedBy": [%s] }',
  c("oil", "semi-fluid")[i],
  paste(number(c(at$quantile[i, 1], at$lower[i, 1], at$upper[i, 1])), collapse = ", "),
  paste(number(c(at$quantile[i, 2], at$lower[i, 2], at$upper[i, 2])), collapse = ", "),
  { s <- summary(fit[i], times = 100000); paste(number(1 - c(s$surv, s$upper, s$lower)), collapse = ", ") }))
# Jobs of which nobody said it are a level of their own: they tell of the rest.
jobs <- watched[watched$install_kind == "replacement", ]
said <- jobs$dev_spindle_not_dressed
jobs$dressed <- factor(ifelse(said %in% c("yes", "no"), said, "unknown"), levels = c("no", "yes", "unknown"))
cox <- coxph(Surv(entry_miles, exit_miles, state == "failed") ~ dressed, jobs, ties = "efron")
ratio <- exp(c(coef(cox)[1], confint(cox)[1, ]))
version <- paste0("R ", getRversion(), ", survival ", packageVersion("survival"))
cat(sprintf('{ "madeWith": "%s", %s, "crudeHazardRatio": [%s] }\n', version, paste(rows, collapse = ", "), paste(number(ratio), collapse = ", ")))
