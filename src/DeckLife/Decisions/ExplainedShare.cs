using DeckLife.Numerics.LinearMixed;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Decisions;

/// <summary>How much of an output's variance some inputs explain together, from the draws that are there.</summary>
/// <remarks>
/// A surface in the inputs' normal scores (powers up to the fifth and products of two, or less where that predicts better) is fitted to nine tenths of the draws and judged on the last tenth, for each
/// tenth: share = 1 − (squared error of prediction)/(variance). Draws of one index stay in one tenth, or a draw that the surveys favour
/// would predict itself. Unlike a share counted on the draws that were fitted, chance alone scores 0 or less. The idea of an index of
/// first order from given data: Plischke, Borgonovo and Smith, European Journal of Operational Research 226 (2013) (memory).
/// </remarks>
internal static class ExplainedShare
{
    private const int Folds = 10;

    // The plainest first: of two that do as well it is kept.
    private static readonly (int Power, bool Products)[] Surfaces =
    [
        (1, false),
        (2, false),
        (3, true),
        (5, true),
    ];

    /// <summary>The share, with the standard error that its tenths show.</summary>
    /// <param name="inputs">One column an input, one value a draw.</param>
    /// <param name="output">One value a draw.</param>
    /// <param name="indices">Index of each draw.</param>
    /// <returns>Share and error; (0, 0) where the output does not vary, or the draws are too few to tell.</returns>
    public static (double Share, double Error) Of(
        IReadOnlyList<IReadOnlyList<double>> inputs,
        IReadOnlyList<double> output,
        IReadOnlyList<int> indices
    )
    {
        var draws = output.Count;
        var mean = output.Average();
        var variance = output.Sum(y => (y - mean) * (y - mean)) / draws;
        var scores = inputs.Select(Scores).ToArray();
        if (!(variance > 1e-18 * Math.Max(1, mean * mean)))
        {
            return (0, 0);
        }

        // Surfaces that have four draws for each of their terms (draws that the surveys favour and so came often are one); of these the one that
        // predicts what it has not seen best: where surveys leave a narrow ridge of draws, a rich one follows chance.
        var distinct = indices.Distinct().Count();
        return Surfaces
            .Select(s => Terms(scores.Length, s.Power, s.Products))
            .Where(t => distinct >= 4 * t.Count)
            .Select(t => Judged(scores, t, output, indices, mean, variance))
            .DefaultIfEmpty((Share: 0, Error: 0))
            .MaxBy(j => j.Share);
    }

    private static (double Share, double Error) Judged(
        double[][] scores,
        List<(int First, int Second, int Power)> terms,
        IReadOnlyList<double> output,
        IReadOnlyList<int> indices,
        double mean,
        double variance
    )
    {
        var draws = output.Count;
        var rows = new double[draws * terms.Count];
        for (var k = 0; k < draws; k++)
        {
            for (var t = 0; t < terms.Count; t++)
            {
                rows[(k * terms.Count) + t] = Term(scores, terms[t], k);
            }
        }

        // Sums of products, tenth by tenth: those of the other nine are the whole less its own.
        var all = new Products(terms.Count);
        var tenths = new Products[Folds];
        for (var fold = 0; fold < Folds; fold++)
        {
            tenths[fold] = new(terms.Count);
        }

        for (var k = 0; k < draws; k++)
        {
            tenths[indices[k] % Folds]
                .Add(rows.AsSpan(k * terms.Count, terms.Count), output[k] - mean);
        }

        foreach (var tenth in tenths)
        {
            all.Add(tenth);
        }

        var byFold = new List<double>();
        for (var fold = 0; fold < Folds; fold++)
        {
            var (held, kept) = (tenths[fold].Count, draws - tenths[fold].Count);
            if (held < 2 || kept <= terms.Count)
            {
                continue;
            }

            // Both as departures from the mean of what was kept, the first term being the constant.
            var centre = (all.Right[0] - tenths[fold].Right[0]) / kept;
            var fit = Products.Fit(all, tenths[fold], centre);
            var (missed, around) = (0.0, 0.0);
            for (var k = 0; k < draws; k++)
            {
                if (indices[k] % Folds != fold)
                {
                    continue;
                }

                var own = output[k] - mean - centre;
                var predicted = 0.0;
                for (var t = 0; t < terms.Count && fit is not null; t++)
                {
                    predicted += fit[t] * rows[(k * terms.Count) + t];
                }

                missed += (own - predicted) * (own - predicted);
                around += own * own;
            }

            byFold.Add((around - missed) / held / variance);
        }

        return byFold.Count < 2
            ? (0, 0)
            : (Math.Clamp(byFold.Average(), 0, 1), PairedMean.Of(byFold).Error);
    }

    private static double[] Scores(IReadOnlyList<double> values)
    {
        var order = Enumerable.Range(0, values.Count).OrderBy(k => values[k]).ToArray();
        var scores = new double[values.Count];
        for (var from = 0; from < order.Length; )
        {
            var to = from;
            while (to + 1 < order.Length && values[order[to + 1]] == values[order[from]])
            {
                to++;
            }

            var score = NormalQuantile.At(((0.5 * (from + to)) + 0.5) / order.Length);
            for (var i = from; i <= to; i++)
            {
                scores[order[i]] = score;
            }

            from = to + 1;
        }

        return scores;
    }

    // A power of one input, or a product of two; the power 0 stands for the constant.
    private static List<(int First, int Second, int Power)> Terms(
        int inputs,
        int powers,
        bool products
    )
    {
        var terms = new List<(int, int, int)> { (0, -1, 0) };
        for (var i = 0; i < inputs; i++)
        {
            for (var power = 1; power <= powers; power++)
            {
                terms.Add((i, -1, power));
            }

            for (var j = i + 1; products && j < inputs; j++)
            {
                terms.Add((i, j, 1));
            }
        }

        return terms;
    }

    private static double Term(double[][] scores, (int First, int Second, int Power) term, int draw)
    {
        var value = 1.0;
        for (var p = 0; p < term.Power; p++)
        {
            value *= scores[term.First][draw];
        }

        return term.Second < 0 ? value : value * scores[term.Second][draw];
    }

    // Sums over draws of the products of terms with each other and with the output.
    private sealed class Products(int terms)
    {
        private readonly double[] matrix = new double[terms * terms];

        public int Count { get; private set; }

        public double[] Right { get; } = new double[terms];

        public void Add(ReadOnlySpan<double> row, double output)
        {
            Count++;
            for (var t = 0; t < terms; t++)
            {
                VectorLoops.AddScaled(row[..(t + 1)], row[t], matrix.AsSpan(t * terms, t + 1));
            }

            VectorLoops.AddScaled(row, output, Right);
        }

        public void Add(Products others)
        {
            Count += others.Count;
            VectorLoops.AddScaled(others.matrix, 1, matrix);
            VectorLoops.AddScaled(others.Right, 1, Right);
        }

        // The surface of least squares through all draws but some; the output as its departure from a centre.
        public static double[]? Fit(Products all, Products but, double centre)
        {
            var terms = all.Right.Length;
            var left = (double[])all.matrix.Clone();
            VectorLoops.AddScaled(but.matrix, -1, left);
            var solution = (double[])all.Right.Clone();
            VectorLoops.AddScaled(but.Right, -1, solution);
            for (var t = 0; t < terms; t++)
            {
                // The first column holds the terms' own sums.
                solution[t] -= centre * left[t * terms];
            }

            // A trace of ridge, so that inputs which say the same do not make the surface undetermined.
            var ridge = 1e-8 * (all.Count - but.Count);
            for (var t = 0; t < terms; t++)
            {
                left[(t * terms) + t] += ridge;
            }

            if (!SymmetricMatrix.Factor(left, terms))
            {
                return null;
            }

            SymmetricMatrix.SolveLower(left, terms, solution);
            SymmetricMatrix.SolveUpper(left, terms, solution);
            return solution;
        }
    }
}
