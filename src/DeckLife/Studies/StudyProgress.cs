namespace DeckLife.Studies;

/// <summary>How far a study is.</summary>
/// <param name="Done">Evaluations done, those of an earlier run included.</param>
/// <param name="Total">Evaluations in all.</param>
/// <param name="DoneEarlier">Evaluations done by an earlier run.</param>
public readonly record struct StudyProgress(long Done, long Total, long DoneEarlier);
