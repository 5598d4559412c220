using System.Globalization;
using DeckLife.Numerics.LeastSquares;

namespace DeckLife.ReferenceChecks.Nist;

/// <summary>A problem of the NIST Statistical Reference Datasets, nonlinear regression.</summary>
internal sealed class NistProblem : ILeastSquaresModel
{
    private readonly Func<Dual[], double[], Dual> _model;

    public NistProblem(
        string name,
        double[] response,
        double[][] predictors,
        double[][] starts,
        double[] certified,
        double[] deviations,
        double sumOfSquares
    )
    {
        Name = name;
        Response = response;
        Predictors = predictors;
        Starts = starts;
        Certified = certified;
        Deviations = deviations;
        SumOfSquares = sumOfSquares;
        _model = NistModels.Of(name);
    }

    public string Name { get; }

    public double[] Response { get; }

    public double[][] Predictors { get; }

    public double[][] Starts { get; }

    public double[] Certified { get; }

    public double[] Deviations { get; }

    public double SumOfSquares { get; }

    public int Residuals => Response.Length;

    public int Parameters => Certified.Length;

    /// <summary>Reads a dataset's file as the institute lays it out.</summary>
    public static NistProblem Read(string path)
    {
        var lines = File.ReadAllLines(path);
        var name = Path.GetFileNameWithoutExtension(path);
        var certified = lines
            .Where(l =>
                l.TrimStart().StartsWith('b') && l.Contains(" = ", StringComparison.Ordinal)
            )
            .Select(l => Numbers(l[(l.IndexOf('=', StringComparison.Ordinal) + 1)..]))
            .Where(v => v.Length == 4)
            .ToArray();
        var sum = lines.Single(l =>
            l.StartsWith("Residual Sum of Squares", StringComparison.Ordinal)
        );
        var first =
            Array.FindLastIndex(lines, l => l.StartsWith("Data:", StringComparison.Ordinal)) + 1;
        var data = lines.Skip(first).Select(Numbers).Where(v => v.Length >= 2).ToArray();
        return new NistProblem(
            name,
            [.. data.Select(v => name == "Nelson" ? Math.Log(v[0]) : v[0])],
            [.. data.Select(v => v[1..])],
            [
                [.. certified.Select(v => v[0])],
                [.. certified.Select(v => v[1])],
            ],
            [.. certified.Select(v => v[2])],
            [.. certified.Select(v => v[3])],
            Numbers(sum[(sum.IndexOf(':', StringComparison.Ordinal) + 1)..])[0]
        );
    }

    public void Evaluate(
        ReadOnlySpan<double> parameters,
        Span<double> residuals,
        Span<double> jacobian
    )
    {
        var n = Parameters;
        var b = new Dual[n];
        for (var j = 0; j < n; j++)
        {
            b[j] = Dual.Parameter(parameters[j], j, n);
        }

        for (var i = 0; i < Residuals; i++)
        {
            var value = _model(b, Predictors[i]);
            residuals[i] = value.Value - Response[i];
            if (!jacobian.IsEmpty)
            {
                value.Slope.CopyTo(jacobian.Slice(i * n, n));
            }
        }
    }

    /// <summary>The fewest digits that agree among some values: -log10 of the relative difference, at most 11 (as many as are certified).</summary>
    public static double Digits(IReadOnlyList<double> found, IReadOnlyList<double> reference)
    {
        var least = 11.0;
        for (var i = 0; i < reference.Count; i++)
        {
            var difference = Math.Abs(found[i] - reference[i]) / Math.Abs(reference[i]);
            var digits = difference > 0 ? -Math.Log10(difference) : 11;
            least = Math.Min(least, double.IsFinite(digits) ? digits : 0);
        }

        return Math.Max(0, least);
    }

    private static double[] Numbers(string text)
    {
        var words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var numbers = new List<double>();
        foreach (var word in words)
        {
            if (
                !double.TryParse(
                    word,
                    NumberStyles.Float,
                    CultureInfo.InvariantCulture,
                    out var value
                )
            )
            {
                return [];
            }

            numbers.Add(value);
        }

        return [.. numbers];
    }
}
