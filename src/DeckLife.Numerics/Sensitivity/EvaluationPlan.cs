using DeckLife.Numerics.Sampling;

namespace DeckLife.Numerics.Sensitivity;

/// <summary>
/// The points at which a method wants a function, in blocks of a fixed size that can be computed in any order, on any machine:
/// the method's result depends on the blocks' values alone.
/// </summary>
public abstract class EvaluationPlan
{
    /// <summary>Number of blocks.</summary>
    public abstract int Blocks { get; }

    /// <summary>Number of evaluations in all.</summary>
    public abstract long Evaluations { get; }

    /// <summary>The points of one block.</summary>
    /// <param name="block">Number of the block, from 0.</param>
    public abstract EvaluationBlock Points(int block);

    /// <summary>Computes the function at all points of the plan.</summary>
    /// <param name="function">The function.</param>
    /// <param name="threads">Number of threads, 0 for all; the result is the same for any.</param>
    /// <param name="cancellation">Stops between two blocks.</param>
    /// <returns>One array a block, one value a point.</returns>
    public double[][] Evaluate(
        BatchFunction function,
        int threads = 0,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(function);
        return FixedOrderParallel.Map(
            Blocks,
            block =>
            {
                var points = Points(block);
                var values = new double[points.Count];
                function(points.Count, points.Columns, values);
                return values;
            },
            threads,
            cancellation
        );
    }

    /// <summary>Refuses values that are missing, too few, too many or not finite.</summary>
    /// <param name="values">One array a block.</param>
    protected void CheckValues(IReadOnlyList<double[]> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        if (values.Count != Blocks)
        {
            throw new ArgumentException(
                $"{Blocks} blocks of values are needed, {values.Count} are given.",
                nameof(values)
            );
        }

        var count = values.Sum(v => (long)v.Length);
        if (count != Evaluations)
        {
            throw new ArgumentException(
                $"{Evaluations} values are needed, {count} are given.",
                nameof(values)
            );
        }

        if (values.Any(v => v.Any(x => !double.IsFinite(x))))
        {
            throw new ArgumentException(
                "A value is not finite: give the function a value there, or cap it.",
                nameof(values)
            );
        }
    }
}
