using DeckLife.Numerics.LeastSquares;

namespace DeckLife.ReferenceChecks.Nist;

/// <summary>Five of the NIST nonlinear problems, typed in, from both certified starts; NIST-DIGITS.md has all 27.</summary>
public sealed class NistTypedCases : IReferenceCaseSet
{
    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        yield return Case(
            "Dental research, monomolecular adsorption (lower difficulty)",
            "y = b1 (1 - exp(-b2 x))",
            new NistProblem(
                "Misra1a",
                [
                    10.07,
                    14.73,
                    17.94,
                    23.93,
                    29.61,
                    35.18,
                    40.02,
                    44.82,
                    50.76,
                    55.05,
                    61.01,
                    66.4,
                    75.47,
                    81.78,
                ],
                [
                    [77.6],
                    [114.9],
                    [141.1],
                    [190.8],
                    [239.9],
                    [289.0],
                    [332.8],
                    [378.4],
                    [434.8],
                    [477.3],
                    [536.8],
                    [593.1],
                    [689.1],
                    [760.0],
                ],
                [
                    [500, 0.0001],
                    [250, 0.0005],
                ],
                [2.3894212918E+02, 5.5015643181E-04],
                [2.7070075241E+00, 7.2668688436E-06],
                1.2455138894E-01
            )
        );
        yield return Case(
            "Biochemical oxygen demand (higher difficulty)",
            "y = b1 (1 - exp(-b2 x))",
            new NistProblem(
                "BoxBOD",
                [109.0, 149.0, 149.0, 191.0, 213.0, 224.0],
                [
                    [1.0],
                    [2.0],
                    [3.0],
                    [5.0],
                    [7.0],
                    [10.0],
                ],
                [
                    [1, 1],
                    [100, 0.75],
                ],
                [2.1380940889E+02, 5.4723748542E-01],
                [1.2354515176E+01, 1.0455993237E-01],
                1.1680088766E+03
            )
        );
        yield return Case(
            "Sigmoidal growth (higher difficulty)",
            "y = b1 / (1 + exp(b2 - b3 x))^(1/b4)",
            new NistProblem(
                "Rat43",
                [
                    16.08,
                    33.83,
                    65.8,
                    97.2,
                    191.55,
                    326.2,
                    386.87,
                    520.53,
                    590.03,
                    651.92,
                    724.93,
                    699.56,
                    689.96,
                    637.56,
                    717.41,
                ],
                [
                    [1.0],
                    [2.0],
                    [3.0],
                    [4.0],
                    [5.0],
                    [6.0],
                    [7.0],
                    [8.0],
                    [9.0],
                    [10.0],
                    [11.0],
                    [12.0],
                    [13.0],
                    [14.0],
                    [15.0],
                ],
                [
                    [100, 10, 1, 1],
                    [700, 5, 0.75, 1.3],
                ],
                [6.9964151270E+02, 5.2771253025E+00, 7.5962938329E-01, 1.2792483859E+00],
                [1.6302297817E+01, 2.0828735829E+00, 1.9566123451E-01, 6.8761936385E-01],
                8.7864049080E+03
            )
        );
        yield return Case(
            "Kowalik and Osborne (higher difficulty)",
            "y = b1 (x² + b2 x) / (x² + b3 x + b4)",
            new NistProblem(
                "MGH09",
                [
                    0.1957,
                    0.1947,
                    0.1735,
                    0.16,
                    0.0844,
                    0.0627,
                    0.0456,
                    0.0342,
                    0.0323,
                    0.0235,
                    0.0246,
                ],
                [
                    [4.0],
                    [2.0],
                    [1.0],
                    [0.5],
                    [0.25],
                    [0.167],
                    [0.125],
                    [0.1],
                    [0.0833],
                    [0.0714],
                    [0.0625],
                ],
                [
                    [25, 39, 41.5, 39],
                    [0.25, 0.39, 0.415, 0.39],
                ],
                [1.9280693458E-01, 1.9128232873E-01, 1.2305650693E-01, 1.3606233068E-01],
                [1.1435312227E-02, 1.9633220911E-01, 8.0842031232E-02, 9.0025542308E-02],
                3.0750560385E-04
            )
        );
        yield return Case(
            "Meyer (higher difficulty)",
            "y = b1 exp(b2 / (x + b3))",
            new NistProblem(
                "MGH10",
                [
                    34780.0,
                    28610.0,
                    23650.0,
                    19630.0,
                    16370.0,
                    13720.0,
                    11540.0,
                    9744.0,
                    8261.0,
                    7030.0,
                    6005.0,
                    5147.0,
                    4427.0,
                    3820.0,
                    3307.0,
                    2872.0,
                ],
                [
                    [50.0],
                    [55.0],
                    [60.0],
                    [65.0],
                    [70.0],
                    [75.0],
                    [80.0],
                    [85.0],
                    [90.0],
                    [95.0],
                    [100.0],
                    [105.0],
                    [110.0],
                    [115.0],
                    [120.0],
                    [125.0],
                ],
                [
                    [2, 400000, 25000],
                    [0.02, 4000, 250],
                ],
                [5.6096364710E-03, 6.1813463463E+03, 3.4522363462E+02],
                [1.5687892471E-04, 2.3309021107E+01, 7.8486103508E-01],
                8.7945855171E+01
            )
        );
    }

    private static ReferenceCase Case(string title, string model, NistProblem problem) =>
        new(
            "nist/" + problem.Name.ToLowerInvariant(),
            "Nonlinear regression: " + title,
            model + "; data and both starts as certified",
            $"NIST/ITL Statistical Reference Datasets, Nonlinear Regression, {problem.Name}: certified values",
            HowGot.Printed,
            "parameters to 6 digits and deviations to 4, as a good double-precision program should",
            [.. Values(problem)]
        );

    private static IEnumerable<ReferenceValue> Values(NistProblem problem)
    {
        for (var start = 0; start < 2; start++)
        {
            var run = new Lazy<LeastSquaresResult>(
                Fit(problem, problem.Starts[start]),
                isThreadSafe: true
            );
            for (var j = 0; j < problem.Parameters; j++)
            {
                var index = j;
                yield return new(
                    $"b{j + 1}, start {start + 1}",
                    problem.Certified[j],
                    () => run.Value.Parameters[index],
                    1e-6
                );
                yield return new(
                    $"s.d. of b{j + 1}, start {start + 1}",
                    problem.Deviations[j],
                    () => run.Value.StandardErrors[index],
                    1e-4
                );
            }

            yield return new(
                $"sum of squares, start {start + 1}",
                problem.SumOfSquares,
                () => run.Value.SumOfSquares,
                1e-9
            );
        }
    }

    private static Func<LeastSquaresResult> Fit(NistProblem problem, double[] start) =>
        () => new LevenbergMarquardt().Minimise(problem, start);
}
