namespace DeckLife.Economics;

/// <summary>Who bears a cost.</summary>
public enum Payer
{
    /// <summary>The owner of the deck.</summary>
    Agency,

    /// <summary>Those who travel over it: delay, detours, accidents.</summary>
    Users,
}
