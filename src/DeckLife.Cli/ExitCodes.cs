namespace DeckLife.Cli;

/// <summary>What the command's exit code says.</summary>
internal static class ExitCodes
{
    /// <summary>Done.</summary>
    public const int Done = 0;

    /// <summary><c>check</c> found errors.</summary>
    public const int ProblemsFound = 1;

    /// <summary>Unusable input or arguments; nothing was computed.</summary>
    public const int UnusableInput = 2;

    /// <summary>A computation could not be completed.</summary>
    public const int NotCompleted = 3;

    /// <summary>Interrupted by the user.</summary>
    public const int Interrupted = 130;
}
