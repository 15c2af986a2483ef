namespace MicRegister.Documents.Drawings;

/// <summary>A plain drawing: millimetres, lines, texts and marks, each with a role that a painter turns into colour and weight.</summary>
/// <param name="WidthMm">Width.</param>
/// <param name="HeightMm">Height; y runs downward.</param>
/// <param name="Title">What it shows, for those who do not see it.</param>
/// <param name="Shapes">Shapes, back to front.</param>
public sealed record Drawing(double WidthMm, double HeightMm, string Title, IReadOnlyList<Shape> Shapes);

/// <summary>A shape with its role.</summary>
public abstract record Shape(Role Role);

/// <summary>A line through points; closed and filled where it is an area.</summary>
public sealed record Line(Role Role, IReadOnlyList<(double X, double Y)> Points, bool IsArea = false) : Shape(Role);

/// <summary>A text.</summary>
/// <param name="Align">-1 begins at x, 0 is centred, 1 ends at x.</param>
public sealed record Label(Role Role, double X, double Y, string Text, int Align = -1, double SizeMm = 3) : Shape(Role);

/// <summary>Something that can be pointed at.</summary>
/// <param name="Key">What it stands for; empty where it stands for nothing that can be chosen.</param>
/// <param name="Form">Its form: in black and white nothing is lost.</param>
/// <param name="Tip">What it says when it is pointed at.</param>
public sealed record Mark(Role Role, double X, double Y, double SizeMm, MarkForm Form, string Key, string Tip) : Shape(Role);

/// <summary>Form of a mark.</summary>
public enum MarkForm
{
    Disc,
    Triangle,
    Square,
    Diamond,
    Cross,
    Plus,
}

/// <summary>What a shape means.</summary>
public enum Role
{
    Axis,
    Grid,
    Quiet,
    Ink,

    /// <summary>A module of a printed code: black, whatever the look is.</summary>
    Code,
    Value,
    Uncertainty,
    Limit,
    Band,
    Forecast,
    Ready,
    Risk,
    Stop,
    Undecided,
    Annulled,

    /// <summary>A check in the field: seen, but lighter than a certificate.</summary>
    Check,

    /// <summary>A place in time where something changed.</summary>
    Change,

    /// <summary>A span of time, such as a campaign.</summary>
    Span,
}
