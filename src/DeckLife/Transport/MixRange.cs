using System.Runtime.CompilerServices;

namespace DeckLife.Transport;

/// <summary>The ranges outside which an empirical relation must not be asked.</summary>
internal static class MixRange
{
    public static void Check(
        double value,
        double least,
        double most,
        string message,
        [CallerArgumentExpression(nameof(value))] string? name = null
    )
    {
        // Written so that NaN is refused too.
        if (!(value >= least && value <= most))
        {
            throw new ArgumentOutOfRangeException(name, value, message);
        }
    }
}
