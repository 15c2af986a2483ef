using MicRegister.Metrology.Classes;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Devices;

/// <summary>
/// The classes that details state. A sound calibrator's class and its edition are two details, since registers of earlier releases hold
/// them so; a filter's or meter's is one, with the edition in it. A class without an edition stays one.
/// </summary>
public static class InstrumentClasses
{
    /// <summary>The class that a device's details state.</summary>
    /// <param name="device">The device.</param>
    /// <param name="field">A detail that holds a class.</param>
    /// <param name="wrong">Why what stands there is none; null where it is one, or where nothing stands there.</param>
    /// <returns>Null where nothing stands there, or nothing that is known: facts from elsewhere may hold any text.</returns>
    public static StatedClass? Of(DeviceState device, DeviceField field, out string? wrong)
    {
        wrong = null;
        if (device.Text(field) is not { Length: > 0 } text) return null;
        var edition = field == DeviceField.CalibratorClass ? device.Text(DeviceField.CalibratorEdition) : null;
        return ClassText.Read(field.Sort!, text, edition, out wrong);
    }

    /// <summary>Puts classes and editions among details as they are stored.</summary>
    /// <param name="details">What is said now; of checked fields of other sorts nothing changes.</param>
    /// <param name="known">What stands of a field already; null where nothing does.</param>
    /// <param name="wrong">The field that is wrong and why; null where all can be.</param>
    /// <returns>
    /// The details: an edition that a class names is stated beside it; one that stood there and cannot be of the new class is put right
    /// where the class tells its edition, and is refused where it does not.
    /// </returns>
    public static IReadOnlyDictionary<string, FieldValue> Settle(
        IReadOnlyDictionary<string, FieldValue> details, Func<DeviceField, string?> known, out (DeviceField Field, string Why)? wrong)
    {
        wrong = null;
        string? Said(DeviceField field) => details.TryGetValue(field.Key, out var value) ? value.ToString() : null;
        if (details.Keys.All(k => DeviceField.Find(k)?.Sort is null)) return details;
        var settled = details.ToDictionary(StringComparer.Ordinal);
        foreach (var field in new[] { DeviceField.FilterClass, DeviceField.MeterClass })
        {
            if (Said(field) is not { } text) continue;
            if (ClassText.Read(field.Sort!, text, out var why) is { } stated) settled[field.Key] = FieldValue.Of(stated.Text);
            else wrong ??= (field, why!);
        }
        wrong ??= Calibrator(settled, Said(DeviceField.CalibratorClass), Said(DeviceField.CalibratorEdition), known);
        return settled;
    }

    private static (DeviceField, string)? Calibrator(
        Dictionary<string, FieldValue> settled, string? text, string? edition, Func<DeviceField, string?> known)
    {
        var (field, sort) = (DeviceField.CalibratorClass, InstrumentSort.Calibrator);
        if (edition is not null)
        {
            if (ClassText.Edition(sort, edition, out var why) is not { } editions) return (DeviceField.CalibratorEdition, why!);
            if (editions.Count > 1)
                return (DeviceField.CalibratorEdition, $"'{edition}' can be {string.Join(" or ", editions.Select(e => e.Text))}");
            settled[DeviceField.CalibratorEdition.Key] = Year(editions[0]);
        }
        if (text is null)
        {
            // What stands there and cannot be read contradicts nothing.
            var stands = edition is null ? null : known(field);
            if (stands is null || ClassText.Read(sort, stands, out _) is null) return null;
            return ClassText.Read(sort, stands, edition, out var other) is null ? (DeviceField.CalibratorEdition, other!) : null;
        }
        if (ClassText.Read(sort, text, edition, out var wrong) is not { } stated) return (field, wrong!);
        settled[field.Key] = FieldValue.Of(stated.Designation);
        if (edition is not null) return null;
        var before = known(DeviceField.CalibratorEdition) is { } b && ClassText.Edition(sort, b, out _) is not null ? b : null;
        var isNamed = ClassText.Read(sort, stated.Designation, out _)!.Edition is null && stated.Edition is not null;
        if (isNamed
            || (before is not null && stated.Edition is not null && ClassText.Read(sort, stated.Designation, before, out _) is null))
            settled[DeviceField.CalibratorEdition.Key] = Year(stated.Edition!);
        else if (before is not null && ClassText.Read(sort, stated.Designation, before, out wrong) is null)
            return (field, wrong!);
        return null;
    }

    private static FieldValue Year(ClassEdition edition) => FieldValue.Of(FormattableString.Invariant($"{edition.Year}"));
}
