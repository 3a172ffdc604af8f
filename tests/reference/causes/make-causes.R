# A lives table as `hubcause lives` writes it, simulated, and what R's survival makes of it.
# Run: Rscript make-causes.R   (writes lives.csv and expected.json beside this file; R 4, survival 3.5-3)
# Late entry, renewals and other failures in between, three shops, vehicles of four wheel ends with a frailty of
# their own, one deviation that can exist everywhere and one only on spacer and unitized hubs, both partly not known.
suppressMessages(library(survival))
options(warn = 1, stringsAsFactors = FALSE, digits = 17)
RNGkind("Mersenne-Twister", "Inversion", "Rejection")
set.seed(20261)
here <- { a <- grep("^--file=", commandArgs(), value = TRUE); if (length(a)) dirname(normalizePath(sub("^--file=", "", a[1]))) else "." }

units <- 320
pick <- function(n, values, p = NULL) sample(values, n, TRUE, p)
shop <- pick(units, c("Ambleford", "Brackwell", "Coldmere")); frailty <- rgamma(units, 4, 4)
n <- units * 4; unit <- rep(seq_len(units), each = 4); axle <- rep(c(2, 2, 3, 3), units); side <- rep(c("left", "right"), units * 2)
lives <- data.frame(life_id = paste0("L", 1:n), unit_id = paste0("U", unit), install_miles = 0, shop = shop[unit], axle, side,
  role = ifelse(axle == 2, "drive", "trailer"), lubricant = pick(n, c("oil", "semi-fluid"), c(.6, .4)),
  hub_build = pick(n, c("adjusted", "spacer", "unitized"), c(.4, .4, .2)), duty = rep(pick(units, c("linehaul", "regional")), each = 4),
  install_year = pick(n, 2018:2020))
rare <- c(Ambleford = .10, Brackwell = .20, Coldmere = .35)[lives$shop]
said <- function(p) { u <- runif(n); ifelse(runif(n) < .15, "unknown", ifelse(u < p, "yes", "no")) }
lives$dev_seal_cocked <- said(rare); lives$dev_nut_backed_off <- ifelse(lives$hub_build == "adjusted", "not-applicable", said(.25))
eta <- log(frailty[unit]) + .4 * (lives$shop == "Coldmere") + .3 * (lives$role == "trailer") - .2 * (lives$lubricant == "oil") +
  .7 * (lives$dev_seal_cocked == "yes") + .3 * (lives$dev_nut_backed_off == "yes")
fails <- 260000 * (rexp(n) / exp(eta))^(1 / 1.3); renewed <- 1000 + rexp(n) * 250000; stops <- runif(n, 40000, 320000)
entry <- ifelse(runif(n) < .3, runif(n, 5000, 60000), 0)
end <- pmin(fails, renewed, stops); keep <- end > entry + 10
lives <- cbind(lives, entry_miles = round(entry), exit_miles = round(end) + seq_len(n) / 4096,
  state = ifelse(end == fails, "failed", ifelse(end == renewed, "planned", "running")))[keep, ]
lives$mode <- ifelse(lives$state == "failed", "seal-inner", ""); lives$exposure_miles <- lives$exit_miles - lives$entry_miles
lives$install_date <- paste0(lives$install_year, "-06-15"); lives$install_kind <- "replacement"; lives$component <- "seal"
write.csv(lives[, setdiff(names(lives), "install_year")], file.path(here, "lives.csv"), row.names = FALSE, quote = FALSE)

ratio <- function(fit, term) { s <- summary(fit)$coefficients[term, ]; list(coefficient = s[["coef"]], model = s[["se(coef)"]], robust = s[["robust se"]]) }
at <- function(fit, time) { s <- summary(fit, times = time, extend = FALSE); s }
horizon <- 100000; cut <- 25000
results <- function(dev) {
  d <- lives[lives[[dev]] != "not-applicable", ]; d$dev <- factor(d[[dev]], c("no", "yes", "unknown")); d$failed <- as.integer(d$state == "failed")
  build <- if (length(unique(d$hub_build)) > 1) "+ hub_build" else ""
  others <- paste("role + lubricant", build, "+ duty + factor(install_year)")
  cox <- function(rhs, data = d) coxph(as.formula(paste("Surv(entry_miles, exit_miles, failed) ~", rhs)), data, ties = "efron", cluster = unit_id)
  s <- survSplit(Surv(entry_miles, exit_miles, failed) ~ ., d, cut = cut, episode = "piece")
  for (level in c("yes", "unknown")) for (piece in 1:2) s[[paste0(level, piece)]] <- as.integer(s$dev == level & s$piece == piece)
  names(s)[names(s) %in% c("tstart")] <- "entry_miles"
  split <- cox(paste(others, "+ yes1 + yes2 + unknown1 + unknown2 + strata(shop)"), s)
  d$axle_of <- paste(d$unit_id, d$axle)
  known <- d[d$dev != "unknown", ]; known$dev <- factor(known$dev, c("no", "yes"))
  km <- survfit(Surv(entry_miles, exit_miles, failed) ~ dev, known); k <- summary(km, times = horizon)
  known$cause <- factor(ifelse(known$failed == 1, 1, ifelse(known$state == "planned", 2, 0)), 0:2, c("censor", "failed", "renewed"))
  ci <- summary(survfit(Surv(entry_miles, exit_miles, cause) ~ dev, known, id = life_id), times = horizon)
  score <- coxph(Surv(entry_miles, exit_miles, failed) ~ dev, known)
  area <- summary(km, rmean = horizon)$table[, "rmean"]
  who <- glm(as.formula(paste("as.integer(dev == 'yes') ~", others, "+ factor(shop)")), binomial, known, control = list(epsilon = 1e-14, maxit = 50))
  known$w <- ifelse(known$dev == "yes", 1, exp(predict(who))); alike <- survfit(Surv(entry_miles, exit_miles, failed) ~ dev, known, weights = w)
  areaAlike <- summary(alike, rmean = horizon)$table[, "rmean"]
  list(rows = nrow(d), lives = as.list(table(d$dev)), failures = as.list(tapply(d$failed, d$dev, sum)),
    crude = ratio(cox("dev"), "devyes"), adjusted = ratio(cox(paste(others, "+ dev + strata(shop)")), "devyes"),
    early = ratio(split, "yes1"), later = ratio(split, "yes2"),
    vehicle = ratio(cox(paste(others, "+ shop + dev + strata(unit_id)")), "devyes"),
    axle = ratio(cox(paste(others, "+ shop + dev + strata(axle_of)")), "devyes"),
    logRank = unname(summary(score)$sctest["test"]),
    hadNone = list(no = 1 - k$surv[1], yes = 1 - k$surv[2]), underRenewals = list(no = ci$pstate[1, 2], yes = ci$pstate[2, 2]),
    meanDifference = unname(area[2] - area[1]), meanDifferenceAlike = unname(areaAlike[2] - areaAlike[1]),
    effectiveOthers = with(known[known$dev == "no", ], sum(w)^2 / sum(w^2)))
}
json <- function(x) if (is.list(x)) paste0("{", paste0('"', names(x), '": ', vapply(x, json, ""), collapse = ", "), "}") else format(x, digits = 17)
writeLines(json(list(seal_cocked = results("dev_seal_cocked"), nut_backed_off = results("dev_nut_backed_off"))), file.path(here, "expected.json"))
