# Layered histories by R deSolve (lsoda, banded); space as in peer_histories.py. Usage: Rscript peer_desolve.R FOLDER
suppressMessages(library(deSolve))
folder <- commandArgs(TRUE)[1]
P <- as.matrix(read.csv(file.path(folder, "sections.csv"), header = FALSE, nrows = 4))
R <- as.matrix(read.csv(file.path(folder, "reference.csv"), header = FALSE, nrows = 4))
erfc <- function(x) 2 * pnorm(-x * sqrt(2))
one <- function(i, rtol) {
  p <- P[i, ]
  h <- c(rep(p[1] / 24, 24), rep((p[2] - p[1]) / 18, 18), (p[11] - p[2]) * 1.1^(0:19) / sum(1.1^(0:19)))
  n <- length(h)
  mass <- (h + c(h[-1], 0)) / 2
  x <- cumsum(h)
  c0 <- ifelse(seq_len(n) < 24, 0, p[8] * erfc((x - p[1] + p[10]) / (2 * sqrt(p[9]))))
  c0[24] <- c0[24] * h[25] / (h[24] + h[25])
  f <- function(t, u, parms) {
    d1 <- p[3] * (28 / 365.25 / (t + 7 / 365.25))^p[4]
    d2 <- p[5] * (28 / 365.25 / (t + 30))^p[6]
    flux <- c(rep(d1, 24), rep(d2, n - 24)) / h * (c(p[7], u[-n]) - u)
    list((flux - c(flux[-1], 0)) / mass)
  }
  start <- proc.time()[1] + proc.time()[2]
  o <- ode(c0, c(0, 1:60), f, NULL, method = "lsoda", rtol = rtol, atol = rtol * 0.1, jactype = "bandint", bandup = 1, banddown = 1)
  c(proc.time()[1] + proc.time()[2] - start, max(abs(o[-1, 1 + 42] - R[i, ])) / max(p[7], p[8]))
}
found <- sapply(rep(1:4, 3), one, rtol = 1e-3)
cat(sprintf("peer|R deSolve lsoda, rtol 0.001, one history|%.6g|%.3g|us\n", median(found[1, ]) * 1e6, max(found[2, ])))
cat(sprintf("peer|versions R|deSolve %s, R %s||\n", packageVersion("deSolve"), getRversion()))
