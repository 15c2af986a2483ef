using System.Buffers.Binary;
using System.Globalization;
using System.Text;

namespace MicRegister.Documents.Recordings;

/// <summary>What a recorder wrote about a recording.</summary>
/// <param name="Description">In its own words.</param>
/// <param name="Originator">The recorder.</param>
/// <param name="Day">Day on which it began, by the recorder's clock; null where it cannot be read.</param>
/// <param name="Time">Time of day at which it began, by the recorder's clock; null where it cannot be read.</param>
/// <param name="SamplesSinceMidnight">Samples from the recorder's midnight to the first sample: local or not, the recorder does not say.</param>
/// <remarks>EBU Tech 3285: `bext`, version 0 fields.</remarks>
public sealed record BroadcastNote(string Description, string Originator, DateOnly? Day, TimeOnly? Time, ulong SamplesSinceMidnight)
{
    internal static BroadcastNote Read(ReadOnlySpan<byte> bext) => new(
        Text(bext[..256]), Text(bext[256..288]),
        DateOnly.TryParseExact(Digits(bext[320..330]), "yyyyMMdd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null,
        TimeOnly.TryParseExact(Digits(bext[330..338]), "HHmmss", CultureInfo.InvariantCulture, DateTimeStyles.None, out var time) ? time : null,
        BinaryPrimitives.ReadUInt64LittleEndian(bext[338..346]));

    // Fields that are full have no end mark.
    private static string Text(ReadOnlySpan<byte> field)
    {
        var end = field.IndexOf((byte)0);
        var text = Encoding.Latin1.GetString(end < 0 ? field : field[..end]);
        return new string([.. text.Where(c => !char.IsControl(c))]).Trim();
    }

    // Separators differ between recorders: - : . blank or _.
    private static string Digits(ReadOnlySpan<byte> field) => new([.. Encoding.ASCII.GetString(field).Where(char.IsAsciiDigit)]);
}
