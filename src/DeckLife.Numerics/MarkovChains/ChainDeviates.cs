namespace DeckLife.Numerics.MarkovChains;

/// <summary>The random numbers of one Markov chain, fixed by (seed, purpose, index) and by nothing else.</summary>
/// <remarks>
/// Source: Steele, Lea and Flood, Fast splittable pseudorandom number generators (OOPSLA 2014), SplitMix64; normal
/// deviates by the polar method (Marsaglia and Bray, SIAM Review 6, 1964).
/// </remarks>
public sealed class ChainDeviates
{
    private const ulong Golden = 0x9E3779B97F4A7C15UL;
    private ulong _state;
    private double _spare;
    private bool _hasSpare;

    /// <summary>Opens the sequence.</summary>
    /// <param name="seed">The user's seed; 0 is a seed.</param>
    /// <param name="purpose">What the numbers are for; streams of different purposes are independent.</param>
    /// <param name="index">Number of the chain, replicate or data set.</param>
    public ChainDeviates(ulong seed, string purpose, ulong index)
    {
        ArgumentNullException.ThrowIfNull(purpose);
        var key = Mix(seed + Golden);
        foreach (var letter in purpose)
        {
            key = Mix(key ^ (letter * Golden));
        }

        _state = Mix(key + (index * 0xD1342543DE82EF95UL) + 1);
    }

    /// <summary>A uniform deviate in the open interval (0, 1), on a grid of 2^-53 with half-steps at its ends.</summary>
    public double Uniform()
    {
        _state += Golden;
        return ((Mix(_state) >> 11) + 0.5) * (1.0 / (1UL << 53));
    }

    /// <summary>A standard normal deviate.</summary>
    public double Normal()
    {
        if (_hasSpare)
        {
            _hasSpare = false;
            return _spare;
        }

        double u;
        double v;
        double square;
        do
        {
            u = (2 * Uniform()) - 1;
            v = (2 * Uniform()) - 1;
            square = (u * u) + (v * v);
        } while (square >= 1 || square == 0);

        var factor = Math.Sqrt(-2 * Math.Log(square) / square);
        _spare = v * factor;
        _hasSpare = true;
        return u * factor;
    }

    private static ulong Mix(ulong z)
    {
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }
}
