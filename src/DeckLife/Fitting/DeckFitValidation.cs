using DeckLife.Profiles;

namespace DeckLife.Fitting;

/// <summary>Turns down choices of a deck fit that make no sense.</summary>
internal static class DeckFitValidation
{
    /// <summary>Throws when a choice is out of its range.</summary>
    /// <param name="options">The choices.</param>
    /// <param name="cores">The cores they are for.</param>
    public static void Check(DeckFitOptions options, IReadOnlyList<CoreProfile> cores)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(options.Chains, 2);
        ArgumentOutOfRangeException.ThrowIfLessThan(options.WarmUp, 100);
        ArgumentOutOfRangeException.ThrowIfLessThan(options.Sweeps, 100);
        ArgumentOutOfRangeException.ThrowIfLessThan(options.Draws, 100);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(
            options.Draws,
            options.Sweeps * options.Chains
        );
        ArgumentOutOfRangeException.ThrowIfNegative(options.Extensions);
        if (options.FixedAgeingExponent is { } exponent && !(exponent >= 0 && exponent < 1))
        {
            throw new ArgumentOutOfRangeException(
                nameof(options),
                exponent,
                "The ageing exponent must be at least 0 and below 1."
            );
        }

        if (options.TargetedAreaShare is { } share && !(share >= 0 && share <= 1))
        {
            throw new ArgumentOutOfRangeException(
                nameof(options),
                share,
                "The share of the area of targeted cores must be from 0 to 1."
            );
        }

        foreach (var name in options.TargetedCores)
        {
            if (!cores.Any(c => c.Core == name))
            {
                throw new ArgumentException(
                    $"The targeted core '{name}' is none of the cores given.",
                    nameof(options)
                );
            }
        }
    }
}
