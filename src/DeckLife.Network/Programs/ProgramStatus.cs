namespace DeckLife.Network.Programs;

/// <summary>How sure a program is to be the best one.</summary>
public enum ProgramStatus
{
    /// <summary>No program is better.</summary>
    Optimal,

    /// <summary>A better program may exist, by no more than the gap: the search ended at its limit.</summary>
    WithinGap,

    /// <summary>
    /// The condition asked for can't be held with the money and closures there are: the program is the one that misses it least, and of
    /// those the most valuable.
    /// </summary>
    ConditionMissed,
}
