using DeckLife.Numerics.Reliability;

namespace DeckLife.Studies;

/// <summary>How a search for a design point ended, in words.</summary>
public static class DesignPointWords
{
    /// <summary>The words, to stand within a sentence.</summary>
    /// <param name="status">How it ended.</param>
    public static string Of(DesignPointStatus status) =>
        status switch
        {
            DesignPointStatus.Converged => "found",
            DesignPointStatus.IterationLimit => "not found in the steps allowed",
            DesignPointStatus.NoGradient => "no input changes the event there",
            DesignPointStatus.NoProgress => "no step came nearer",
            DesignPointStatus.NotFinite => "no finite value there",
            _ => throw new ArgumentOutOfRangeException(nameof(status), status, "no such end"),
        };
}
