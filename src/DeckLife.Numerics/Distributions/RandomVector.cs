using System.Buffers;
using System.Collections.Immutable;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Numerics.Distributions;

/// <summary>Several random variables, with their dependence: the map from independent standard normal scores to values.</summary>
/// <remarks>Equation: x_i = F_i⁻¹(Φ((L u)_i)). Checked by: GaussianCopulaTests.</remarks>
public sealed class RandomVector
{
    /// <summary>Most draws that one call of <see cref="Draw"/> gives: a set of draws.</summary>
    public const int DrawnAtOnce = 2048;

    private const int LargestDrawn = 64;

    private readonly Distribution[] _margins;
    private readonly int[] _drawn;

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
        _drawn = [.. Pairs(true), .. Pairs(false)];
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

    /// <summary>Independent draws of the vector.</summary>
    /// <remarks>
    /// Normal and lognormal variables are made of normal numbers in pairs, the others of uniform ones; dependent variables all of normal numbers.
    /// A normal or lognormal variable of which a cut leaves at least 95 % is drawn anew where it lies outside.
    /// </remarks>
    /// <param name="seed">Seed.</param>
    /// <param name="purpose">What they are for, as <see cref="RandomStream.PurposeKey"/> gives it.</param>
    /// <param name="index">Number of the set of draws, below 2^58.</param>
    /// <param name="count">Number of draws, at most <see cref="DrawnAtOnce"/>.</param>
    /// <param name="columns">One array a variable; receives the values.</param>
    /// <exception cref="ArgumentOutOfRangeException">More than <see cref="DrawnAtOnce"/> draws, or more than 64 variables.</exception>
    public void Draw(ulong seed, ulong purpose, ulong index, int count, double[][] columns)
    {
        DrawNumbers(seed, purpose, index, count, columns);
        if (Copula is not null)
        {
            ToValues(count, columns);
            return;
        }

        for (var i = 0; i < _margins.Length; i++)
        {
            var column = columns[i].AsSpan(0, count);
            if (UsesNormals(i))
            {
                Redraw(seed, purpose, index, i, column);
                _margins[i].OfScore.FromStandardNormal(column, column);
            }
            else
            {
                _margins[i].FromUniform(column, column);
            }
        }
    }

    /// <summary>Whether each value of <see cref="Draw"/> is a closed form of one normal score, so that the scores can be had instead.</summary>
    public bool IsOfScores =>
        Enumerable
            .Range(0, Dimensions)
            .All(i => Copula is null ? UsesNormals(i) : _margins[i].IsOfScore);

    /// <summary>The scores of the same draws as <see cref="Draw"/> makes: what is linear in a score, or the logarithm of a value, needs no more.</summary>
    /// <param name="seed">Seed.</param>
    /// <param name="purpose">What they are for, as <see cref="RandomStream.PurposeKey"/> gives it.</param>
    /// <param name="index">Number of the set of draws, below 2^58.</param>
    /// <param name="count">Number of draws, at most <see cref="DrawnAtOnce"/>.</param>
    /// <param name="columns">One array a variable; receives the scores, of a cut distribution those of the whole one within the cut.</param>
    /// <exception cref="InvalidOperationException">The values are not closed forms of scores (<see cref="IsOfScores"/>).</exception>
    public void DrawScores(ulong seed, ulong purpose, ulong index, int count, double[][] columns)
    {
        if (!IsOfScores)
        {
            throw new InvalidOperationException("Not every variable is a closed form of a score.");
        }

        DrawNumbers(seed, purpose, index, count, columns);
        Copula?.Correlate(count, columns);
        for (var i = 0; i < _margins.Length; i++)
        {
            Redraw(seed, purpose, index, i, columns[i].AsSpan(0, count));
        }
    }

    /// <summary>The values of scores that <see cref="DrawScores"/> made, in place.</summary>
    /// <param name="count">Number of draws.</param>
    /// <param name="columns">One array a variable: scores before, values after.</param>
    public void FromScores(int count, double[][] columns)
    {
        ArgumentNullException.ThrowIfNull(columns);
        for (var i = 0; i < _margins.Length; i++)
        {
            var column = columns[i].AsSpan(0, count);
            _margins[i].OfScore.FromStandardNormal(column, column);
        }
    }

    private void DrawNumbers(ulong seed, ulong purpose, ulong index, int count, double[][] columns)
    {
        ArgumentNullException.ThrowIfNull(columns);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(Dimensions, LargestDrawn);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(count, DrawnAtOnce);
        var spare = ArrayPool<double>.Shared.Rent(DrawnAtOnce);
        for (var k = 0; k < _drawn.Length; k += 2)
        {
            var pair = (index * LargestDrawn) + (ulong)(k / 2);
            var column = columns[_drawn[k]].AsSpan(0, count);
            var isNormal = UsesNormals(_drawn[k]);
            if (_drawn[k + 1] >= 0)
            {
                var other = columns[_drawn[k + 1]].AsSpan(0, count);
                RandomPairs.Fill(seed, purpose, pair, column, other, isNormal);
                continue;
            }

            // An odd variable at the end of its kind: its lower half goes with its upper half.
            var room = count == DrawnAtOnce ? column : spare.AsSpan(0, DrawnAtOnce);
            RandomPairs.Fill(
                seed,
                purpose,
                pair,
                room[..(DrawnAtOnce / 2)],
                room[(DrawnAtOnce / 2)..],
                isNormal
            );
            if (count < DrawnAtOnce)
            {
                room[..count].CopyTo(column);
            }
        }

        ArrayPool<double>.Shared.Return(spare);
    }

    private void Redraw(ulong seed, ulong purpose, ulong index, int i, Span<double> column)
    {
        if (_margins[i].RedrawBounds is { } bounds)
        {
            RandomPairs.Redraw(
                seed,
                purpose,
                (index * LargestDrawn) + (ulong)i,
                column,
                bounds.Lower,
                bounds.Upper
            );
        }
    }

    private bool UsesNormals(int i) =>
        Copula is not null || _margins[i].IsOfScore || _margins[i].RedrawBounds is not null;

    // The variables that are made of one kind of number, filled up to an even count by -1.
    private IEnumerable<int> Pairs(bool normals)
    {
        var members = Enumerable
            .Range(0, Dimensions)
            .Where(i => UsesNormals(i) == normals)
            .ToArray();
        return members.Length % 2 == 0 ? members : members.Append(-1);
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
