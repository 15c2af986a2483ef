namespace MicRegister.Server.Pages.Parts;

/// <summary>A line of <see cref="StationGrid"/> as it is drawn; one that is equal is not drawn again.</summary>
/// <param name="Key">What it is known by as long as it stands there.</param>
/// <param name="Name">Its name for those who do not see the table.</param>
/// <param name="Cells">What stands in it.</param>
/// <param name="Note">What is to be said of it as a whole; null where nothing is.</param>
/// <param name="IsOut">Whether it is to be taken out.</param>
/// <param name="CanGo">Whether it can be taken out.</param>
public sealed record GridLine(string Key, string Name, IReadOnlyList<GridCell> Cells, string? Note, bool IsOut, bool CanGo)
{
    public bool Equals(GridLine? other) =>
        other is not null && (Key, Name, Note, IsOut, CanGo) == (other.Key, other.Name, other.Note, other.IsOut, other.CanGo)
        && Cells.SequenceEqual(other.Cells);

    public override int GetHashCode() => Key.GetHashCode(StringComparison.Ordinal);
}

/// <summary>A cell as it is drawn.</summary>
/// <param name="Text">What stands in it.</param>
/// <param name="Wrong">What cannot be so, with what is allowed; null where all can.</param>
/// <param name="Told">What its text means, or what is to be thought of; null where it speaks for itself.</param>
/// <param name="IsChanged">Whether it differs from what is stored.</param>
/// <param name="IsFixed">Whether it cannot be typed in.</param>
public sealed record GridCell(string Text, string? Wrong = null, string? Told = null, bool IsChanged = false, bool IsFixed = false);

/// <summary>A column of <see cref="StationGrid"/>.</summary>
/// <param name="Head">Its name.</param>
/// <param name="Width">Its width, with unit.</param>
/// <param name="IsNumber">Whether a keyboard for numbers serves.</param>
/// <param name="Words">Words to choose from; empty where anything may be typed.</param>
/// <param name="Between">
/// What stands between several things in one cell: Enter after one of them makes room for the next, as a scanner needs it; null where a
/// cell holds one thing.
/// </param>
public sealed record GridColumn(
    string Head, string Width, bool IsNumber = false, IReadOnlyList<string>? Words = null, string? Between = null);
