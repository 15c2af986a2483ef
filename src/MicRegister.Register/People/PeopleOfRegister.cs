using MicRegister.Register.Facts;

namespace MicRegister.Register.People;

/// <summary>The people of a register.</summary>
public static class PeopleOfRegister
{
    extension(Register register)
    {
        /// <summary>Ids of all people, in ordinal order.</summary>
        public IEnumerable<string> PersonIds => register.Ids("person");

        /// <summary>A person; null where no fact names them.</summary>
        public PersonState? Person(string id) =>
            register.Fold<PersonState>(Subject.Person(id), null, facts => PersonState.Fold(id, Register.Counting(facts)), null);
    }
}
