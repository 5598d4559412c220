using DeckLife.Numerics.Reliability;

namespace DeckLife.ReferenceChecks;

/// <summary>FORM, SORM and importance sampling against problems of the literature.</summary>
public sealed class ReliabilityCases : IReferenceCaseSet
{
    private const int Draws = 1 << 19;
    private const string Computed =
        "reference probability by numerical integration or in closed form, independent of this project";
    private const string Printed =
        "problem and probability of the RPRepo collection, read in openturns/otbenchmark (commit b2b6d0a9)";

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        yield return Row(
            "r-s-7",
            "R - S",
            "R N(7,1), S N(2,1)",
            ReliabilityProblems.Difference(7),
            3.5355339059,
            2.0347600872e-4,
            Computed
        );
        yield return Row(
            "r-s-4",
            "R - S",
            "R N(4,1), S N(2,1)",
            ReliabilityProblems.Difference(4),
            1.4142135624,
            7.8649603525e-2,
            Computed
        );
        yield return Row(
            "r-s-lognormal",
            "R - S",
            "R LN(200,20), S LN(100,20)",
            ReliabilityProblems.LognormalDifference(),
            3.1918687664,
            7.0677770575e-4,
            Computed
        );
        yield return Row(
            "axial-bar",
            "R - F/(100 π)",
            "R LN(300,30), F N(75000,5000)",
            ReliabilityProblems.AxialBar(),
            1.8810465185,
            0.029198194624830656,
            Printed,
            HowGot.Printed
        );
        yield return Row(
            "rp8",
            "x1 + 2x2 + 2x3 + x4 - 5x5 - 5x6",
            "x1..x4 LN(120,12), x5 LN(50,10), x6 LN(40,8)",
            ReliabilityProblems.Rp8(),
            3.2116395393,
            7.8979e-4,
            "definition in otbenchmark; probability by Fourier convolution on two meshes (a printed Monte Carlo value, 7.813e-4 ± 0.04e-4, is 1 % low)"
        );
        yield return Row(
            "rp14",
            "x1 - 32/(π x2³) sqrt(x3² x4²/16 + x5²)",
            "x1 U(70,80), x2 N(39,0.1), x3 Gumbel(mean 1500, s.d. 350), x4 N(400,0.1), x5 N(250000,35000)",
            ReliabilityProblems.Rp14(),
            3.1945481352,
            7.7285e-4,
            Printed,
            HowGot.Printed
        );
        yield return Row(
            "rp22",
            "2.5 - (x1 + x2)/√2 + 0.1 (x1 - x2)²",
            "standard normal",
            ReliabilityProblems.Rp22(),
            2.5,
            0.00420730551129961794,
            Printed,
            HowGot.Printed
        );
        yield return Row(
            "rp24",
            "2.5 - 0.2357 (x1 - x2) + 0.00463 (x1 + x2 - 20)⁴",
            "N(10,3) both",
            ReliabilityProblems.Rp24(),
            2.5000239753,
            0.0028599456875,
            Computed
        );
        yield return Row(
            "rp28",
            "x1 x2 - 146.14",
            "x1 N(78064,11710), x2 N(0.0104,0.00156)",
            ReliabilityProblems.Rp28(),
            5.3331239022,
            1.45308907611e-7,
            Computed
        );
        yield return Row(
            "rp31",
            "2 - x2 + 256 x1⁴",
            "standard normal",
            ReliabilityProblems.Rp31(),
            2.0,
            0.0032266812095876910,
            Printed,
            HowGot.Printed
        );
        yield return Row(
            "rp33",
            "min(-x1 - x2 - x3 + 3√3, 3 - x3)",
            "standard normal",
            ReliabilityProblems.Rp33(),
            3.0,
            0.0025755977908,
            Computed,
            points: 2
        );
        yield return Row(
            "rp53",
            "sin(5 x1/2) + 2 - (x1² + 4)(x2 - 1)/20",
            "x1 N(1.5,1), x2 N(2.5,1)",
            ReliabilityProblems.Rp53(),
            1.1851724689,
            0.03132048568668,
            Computed
        );
        yield return Row(
            "four-branch",
            "least of four branches, k 7, 0.1, 3",
            "standard normal",
            ReliabilityProblems.FourBranch(),
            3.0,
            0.002222795066194440,
            "Waarts 2000; " + Printed,
            HowGot.Printed,
            points: 4
        );

        yield return Beta(
            "yz-m",
            "Y Z - M",
            "Y N(40,5), Z N(50,2.5), M N(1000,200)",
            "Ang & Tang 1984, Probability Concepts in Engineering Planning and Design II; β and x* recomputed to ten digits",
            ReliabilityProblems.BeamOfNormals(),
            3.0490734767,
            [28.5504, 48.3083, 1379.22]
        );
        yield return Beta(
            "yz-m-other-shapes",
            "Y Z - M",
            "Y LN(40,5), Z LN(50,2.5), M Gumbel(mean 1000, s.d. 200)",
            "Ang & Tang 1984; β and x* recomputed to ten digits",
            ReliabilityProblems.BeamOfOthers(),
            2.7422408559,
            [34.2994, 48.7772, 1673.03]
        );
        yield return Beta(
            "cubes-unequal",
            "x1³ + x2³ - 18",
            "N(10,5), N(9.9,5)",
            "textbook problem; β computed independently",
            ReliabilityProblems.Cubes(9.9),
            2.2259881188,
            []
        );
        yield return Beta(
            "cubes-equal",
            "x1³ + x2³ - 18",
            "N(10,5) both",
            "textbook problem; β computed independently, x* = 9^(1/3) each",
            ReliabilityProblems.Cubes(10),
            2.2400905741,
            [2.0800838, 2.0800838]
        );
        yield return new ReferenceCase(
            "reliability/second-order",
            "Second-order probabilities at the nearest design point",
            "the problems of the same names above",
            "OpenTURNS 1.20, its own search and curvatures: peers/reliability/second_order.py; rp22 in closed form: κ = 0.4, so that Breitung's is Φ(-2.5)/√2",
            HowGot.ComputedIndependently,
            "curvatures are second differences, which leave some 1e-6",
            [
                .. SecondOrder(
                    "yz-m",
                    ReliabilityProblems.BeamOfNormals(),
                    0.00117443120858,
                    0.00117731025908
                ),
                .. SecondOrder(
                    "yz-m-other-shapes",
                    ReliabilityProblems.BeamOfOthers(),
                    0.00309937612796,
                    0.00310484343535
                ),
                .. SecondOrder(
                    "rp22",
                    ReliabilityProblems.Rp22(),
                    0.00439089646076,
                    0.00425569383754
                ),
            ]
        );
        yield return new ReferenceCase(
            "reliability/clopper-pearson",
            "Exact limits of a probability from counted events",
            "95 %, events of draws as named",
            "SciPy 1.10.1, scipy.stats.binomtest(k, n).proportion_ci(0.95, 'exact')",
            HowGot.ComputedIndependently,
            "log-gamma functions of 1000 cancel some four digits in the incomplete beta function",
            [
                new(
                    "0 of 100, upper",
                    0.03621669264519054,
                    () => BinomialLimits.ClopperPearson(0, 100).Upper,
                    1e-10
                ),
                new(
                    "7 of 1000, lower",
                    LowerSeven,
                    () => BinomialLimits.ClopperPearson(7, 1000).Lower,
                    1e-10
                ),
                new(
                    "7 of 1000, upper",
                    UpperSeven,
                    () => BinomialLimits.ClopperPearson(7, 1000).Upper,
                    1e-10
                ),
            ]
        );
    }

    private const double LowerSeven = 0.002818858759618015;
    private const double UpperSeven = 0.014369194979269567;

    private static ReferenceValue[] SecondOrder(
        string name,
        LimitState limitState,
        double breitung,
        double hohenbichlerRackwitz
    )
    {
        var result = new Lazy<SecondOrderResult>(() =>
            SecondOrderReliability.Correct(
                limitState,
                FirstOrderReliability.FindAll(limitState, 1).Points[0]
            )
        );
        return
        [
            new($"{name}, Breitung", breitung, () => result.Value.Breitung!.Value, 1e-5),
            new(
                $"{name}, Hohenbichler and Rackwitz",
                hohenbichlerRackwitz,
                () => result.Value.HohenbichlerRackwitz!.Value,
                1e-5
            ),
        ];
    }

    private static ReferenceCase Row(
        string id,
        string function,
        string inputs,
        LimitState limitState,
        double beta,
        double probability,
        string source,
        HowGot how = HowGot.ComputedIndependently,
        int points = 1
    )
    {
        var found = new Lazy<DesignPointSet>(() => FirstOrderReliability.FindAll(limitState, 1));
        var estimate = new Lazy<ProbabilityEstimate>(() =>
            ImportanceSampling.Estimate(limitState, found.Value.Points, Draws, 2)
        );
        return new ReferenceCase(
            $"reliability/{id}",
            $"Reliability index and probability: {function}",
            inputs,
            source,
            how,
            "β is given to 10 digits; importance sampling around all design points has a standard error of 0.1 to 0.3 %, the aim is 1 %",
            [
                new("β of the nearest design point", beta, () => found.Value.Points[0].Beta, 1e-9),
                new(
                    $"number of design points is {points} at least (1: yes)",
                    1,
                    () => found.Value.Points.Length >= points ? 1 : 0,
                    0
                ),
                new(
                    "probability by importance sampling",
                    probability,
                    () => estimate.Value.Value,
                    0.01
                ),
            ]
        );
    }

    private static ReferenceCase Beta(
        string id,
        string function,
        string inputs,
        string source,
        LimitState limitState,
        double beta,
        double[] values
    )
    {
        var found = new Lazy<DesignPointSet>(() => FirstOrderReliability.FindAll(limitState, 1));
        return new ReferenceCase(
            $"reliability/{id}",
            $"Design point: {function}",
            inputs,
            source,
            HowGot.ComputedIndependently,
            "β is given to 10 digits, the point to 6",
            [
                new("β", beta, () => found.Value.Points[0].Beta, 1e-9),
                .. values.Select(
                    (x, i) =>
                        new ReferenceValue(
                            $"x{i + 1}*",
                            x,
                            () => found.Value.Points[0].Values[i],
                            4e-6
                        )
                ),
            ]
        );
    }
}
