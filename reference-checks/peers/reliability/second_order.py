"""Second-order probabilities (Breitung; Hohenbichler and Rackwitz) by OpenTURNS, from its own design point and curvatures.

Run: /usr/bin/python3 second_order.py > second_order.txt
"""

import math

import openturns as ot


def show(name, margins, expression, variables):
    function = ot.SymbolicFunction(variables, [expression])
    joint = ot.ComposedDistribution(margins)
    failure = ot.ThresholdEvent(ot.CompositeRandomVector(function, ot.RandomVector(joint)), ot.Less(), 0.0)
    search = ot.AbdoRackwitz()
    search.setMaximumIterationNumber(1000)
    search.setMaximumEvaluationNumber(100_000)
    search.setMaximumAbsoluteError(1e-10)
    search.setMaximumRelativeError(1e-10)
    search.setMaximumResidualError(1e-10)
    search.setMaximumConstraintError(1e-10)
    method = ot.SORM(search, failure, joint.getMean())
    method.run()
    result = method.getResult()
    print(
        f"{name}: beta {result.getHasoferReliabilityIndex():.12g}"
        f" breitung {result.getEventProbabilityBreitung():.12g}"
        f" hohenbichler-rackwitz {result.getEventProbabilityHohenbichler():.12g}"
    )


def lognormal(mean, deviation):
    return ot.ParametrizedDistribution(ot.LogNormalMuSigma(mean, deviation, 0))


def gumbel(mean, deviation):
    scale = deviation * math.sqrt(6) / math.pi
    return ot.Gumbel(scale, mean - 0.57721566490153286 * scale)


print("OpenTURNS", ot.__version__)
beam = ["y", "z", "m"]
show("yz-m", [ot.Normal(40, 5), ot.Normal(50, 2.5), ot.Normal(1000, 200)], "y*z-m", beam)
show("yz-m-other-shapes", [lognormal(40, 5), lognormal(50, 2.5), gumbel(1000, 200)], "y*z-m", beam)
show("rp22", [ot.Normal(), ot.Normal()], "2.5-(x1+x2)/sqrt(2)+0.1*(x1-x2)^2", ["x1", "x2"])
