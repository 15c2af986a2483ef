using System.Text;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Devices;

/// <summary>How a device is told from others.</summary>
public static class DeviceIdentity
{
    /// <summary>The id of a device with a serial number; the same on every register.</summary>
    /// <returns>Sixteen characters from a hash of normalised kind, maker, model and serial.</returns>
    /// <remarks>Normalised: outer blanks gone, inner runs of blanks one blank, capitals. Leading zeros and inner blanks count.</remarks>
    public static string IdOf(string kind, string? maker, string? model, string serial) => FactId.HashText(
        Encoding.UTF8.GetBytes($"device\n{Normal(kind)}\n{Normal(maker)}\n{Normal(model)}\n{Normal(serial)}"), 16);

    /// <summary>A text as it counts for identity.</summary>
    public static string Normal(string? text) =>
        string.Join(' ', (text ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).ToUpperInvariant();

    /// <summary>What two serials have in common that people mix up: blanks, dashes, leading zeros, O and 0, I, L and 1 are no difference.</summary>
    public static string LookAlike(string serial)
    {
        var key = new StringBuilder(serial.Length);
        foreach (var c in serial.ToUpperInvariant())
        {
            if (char.IsWhiteSpace(c) || c is '-' or '.' or '/' or '_' or '\'') continue;
            key.Append(c switch { 'O' or 'Q' => '0', 'I' or 'L' => '1', _ => c });
        }
        return key.ToString().TrimStart('0');
    }
}
