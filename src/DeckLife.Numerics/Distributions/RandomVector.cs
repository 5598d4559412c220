using System.Collections.Immutable;

namespace DeckLife.Numerics.Distributions;

/// <summary>Several random variables, with their dependence: the map from independent standard normal scores to values.</summary>
/// <remarks>Equation: x_i = F_i⁻¹(Φ((L u)_i)). Checked by: GaussianCopulaTests.</remarks>
public sealed class RandomVector
{
    private readonly Distribution[] _margins;

    /// <summary>Makes the vector.</summary>
    /// <param name="margins">The distribution of each variable, at least one.</param>
    /// <param name="copula">Their dependence; absent for independent variables.</param>
    public RandomVector(IEnumerable<Distribution> margins, GaussianCopula? copula = null)
    {
        _margins = [.. margins];
        ArgumentOutOfRangeException.ThrowIfZero(_margins.Length, nameof(margins));
        if (copula is not null && copula.Dimensions != _margins.Length)
        {
            throw new ArgumentException(
                $"The dependence is of {copula.Dimensions} variables, {_margins.Length} are given.",
                nameof(copula)
            );
        }

        Copula = copula;
    }

    /// <summary>Number of variables.</summary>
    public int Dimensions => _margins.Length;

    /// <summary>The distributions of the variables.</summary>
    public ImmutableArray<Distribution> Margins => [.. _margins];

    /// <summary>The dependence; absent for independent variables.</summary>
    public GaussianCopula? Copula { get; }

    /// <summary>The values at one point of independent scores.</summary>
    /// <param name="scores">Independent standard normal scores u.</param>
    /// <param name="values">Receives x; not the same span.</param>
    public void ToValues(ReadOnlySpan<double> scores, Span<double> values)
    {
        if (Copula is null)
        {
            scores[..Dimensions].CopyTo(values);
        }
        else
        {
            Copula.Correlate(scores, values);
        }

        for (var i = 0; i < _margins.Length; i++)
        {
            values[i] = _margins[i].FromStandardNormal(values[i]);
        }
    }

    /// <summary>The values at many points of independent scores, in place.</summary>
    /// <param name="count">Number of points.</param>
    /// <param name="columns">One array a variable: independent scores before, values after.</param>
    public void ToValues(int count, double[][] columns)
    {
        ArgumentNullException.ThrowIfNull(columns);
        Copula?.Correlate(count, columns);
        for (var i = 0; i < _margins.Length; i++)
        {
            var column = columns[i].AsSpan(0, count);
            _margins[i].FromStandardNormal(column, column);
        }
    }

    /// <summary>The independent scores of one point.</summary>
    /// <param name="values">Values x, inside their ranges.</param>
    /// <param name="scores">Receives u; not the same span.</param>
    public void ToScores(ReadOnlySpan<double> values, Span<double> scores)
    {
        Span<double> correlated =
            Dimensions <= 64 ? stackalloc double[Dimensions] : new double[Dimensions];
        for (var i = 0; i < _margins.Length; i++)
        {
            correlated[i] = _margins[i].ToStandardNormal(values[i]);
        }

        if (Copula is null)
        {
            correlated.CopyTo(scores);
        }
        else
        {
            Copula.Decorrelate(correlated, scores);
        }
    }
}
