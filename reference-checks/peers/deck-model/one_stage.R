# One-stage fit of deck.csv by nlme (Lindstrom and Bates 1990), maximum likelihood and restricted.
# Run: Rscript one_stage.R > one_stage.txt
library(nlme)
deck <- read.csv("deck.csv")
erfc <- function(z) 2 * pnorm(-z * sqrt(2))
anti <- function(x, L) x * erfc(x / L) - L / sqrt(pi) * exp(-(x / L)^2)
slice <- function(s, d, c0, top, bottom, age) {
  L <- 2 * sqrt(exp(d) * age)
  share <- (anti(bottom, L) - anti(top, L)) / (bottom - top)
  slope <- (exp(-(top / L)^2) - exp(-(bottom / L)^2)) / (2 * sqrt(pi) * (bottom - top) / L)
  value <- c0 + (exp(s) - c0) * share
  attr(value, "gradient") <- cbind(s = exp(s) * share, d = (exp(s) - c0) * slope, c0 = 1 - share)
  value
}
cat("R", R.version$major, ".", R.version$minor, " nlme ", as.character(packageVersion("nlme")), "\n", sep = "")
p <- function(name, x) cat(sprintf("%s %.10g\n", name, x))
for (m in c("ML", "REML")) {
  fit <- nlme(chloride_kg_per_m3 ~ slice(s, d, c0, top_mm, bottom_mm, age_yr), deck,
              fixed = s + d + c0 ~ 1, random = pdLogChol(s + d ~ 1), groups = ~core, method = m,
              start = c(s = log(8), d = log(22), c0 = 0.3),
              control = nlmeControl(tolerance = 1e-10, pnlsTol = 1e-10, msTol = 1e-14, maxIter = 500, pnlsMaxIter = 50, msMaxIter = 500,
                                    niterEM = 50, returnObject = TRUE))
  p(paste0(m, "_mean_S"), fixef(fit)["s"]); p(paste0(m, "_mean_D"), fixef(fit)["d"]); p(paste0(m, "_background"), fixef(fit)["c0"])
  p(paste0(m, "_se_S"), sqrt(fit$varFix[1, 1])); p(paste0(m, "_se_D"), sqrt(fit$varFix[2, 2])); p(paste0(m, "_se_C0"), sqrt(fit$varFix[3, 3]))
  s <- pdMatrix(fit$modelStruct$reStruct[[1]]) * fit$sigma^2
  p(paste0(m, "_sd_S"), sqrt(s[1, 1])); p(paste0(m, "_sd_D"), sqrt(s[2, 2])); p(paste0(m, "_rho"), s[1, 2] / sqrt(s[1, 1] * s[2, 2]))
  p(paste0(m, "_error"), fit$sigma); p(paste0(m, "_loglik"), as.numeric(logLik(fit)))
  for (k in c("C1", "C8")) p(paste0(m, "_D_", k), coef(fit)[k, "d"])
}
