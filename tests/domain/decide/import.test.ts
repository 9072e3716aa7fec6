// Rules for importing a whole file of members and gear: all or nothing.
import { describe, expect, test } from 'vitest'
import { house } from '../alder-hollow.ts'
import { elementIn, given, memberIn, TOMORROW, type Told } from '../given.ts'

describe('import-gear', () => {
  const file = 'gear.csv'
  const member = { id: 'M-400', name: 'E. Novak', platoon: 'A' }
  const element = { id: 'C-9', kind: 'coat-shell', made: '2020-01' } as const
  const bring = (elements: object[], more: object[] = [member]) => ({
    do: 'import-gear',
    by: 'setup',
    file,
    members: more,
    elements,
  })

  test('one event brings the members and their gear, issued to those who came in the same file', () => {
    const issued = { ...element, issuedTo: 'M-400', issuedOn: '2020-02-01' }
    const air = { id: 'Y-9', kind: 'cylinder', issuedTo: 'E6-2', inService: '2021-01-01' } as const
    const state = given(house)
      .when(bring([issued, air]))
      .records('gear-imported', { file, members: [member], elements: [issued, air] })
    expect(memberIn(state, 'M-400').platoon).toBe('A')
    expect(elementIn(state, 'C-9')).toMatchObject({
      issuedTo: 'M-400',
      issuedOn: '2020-02-01',
      custody: { where: 'issued' },
    })
    expect(elementIn(state, 'Y-9')).toMatchObject({
      issuedTo: 'E6-2',
      issuedOn: '2021-01-01',
      custody: { where: 'rig' },
    })
    expect(state.issued.get('M-400 coat-shell')).toEqual(['C-9'])
  })

  test('without a day of issue it counts from the day it came into service', () => {
    const dated = { ...element, issuedTo: 'M-400', inService: '2020-03-01' }
    const state = given(house)
      .when(bring([dated]))
      .records('gear-imported', { file, members: [member], elements: [dated] })
    expect(elementIn(state, 'C-9').issuedOn).toBe('2020-03-01')
  })

  test('a spare that somebody had before has been in use since, though it is on the rack', () => {
    const used = { ...element, issuedOn: '2020-02-01' }
    const state = given(house)
      .when(bring([used]))
      .records('gear-imported', { file, members: [member], elements: [used] })
    expect(elementIn(state, 'C-9')).toMatchObject({ issuedTo: null, issuedOn: '2020-02-01' })
  })

  test('the day of import is not taken for the day old gear was issued, nor is that of a later issue', () => {
    const undated = { ...element, issuedTo: 'M-400' }
    const imported = given(house)
      .when(bring([undated]))
      .records('gear-imported', { file, members: [member], elements: [undated] })
    expect(elementIn(imported, 'C-9').issuedOn).toBeNull()
    const state = given(
      house,
      bring([undated]) as Told,
      { do: 'return-to-rack', element: 'C-9' },
      { do: 'issue', element: 'C-9', to: 'M-105' },
    ).state
    expect(elementIn(state, 'C-9')).toMatchObject({ issuedTo: 'M-105', issuedOn: null })
  })

  test('what it was made, put into service and issued may all fall in one month', () => {
    const dated = { ...element, inService: '2020-01-01', issuedTo: 'M-400', issuedOn: '2020-01-01' }
    given(house)
      .when(bring([dated]))
      .records('gear-imported', { file, members: [member], elements: [dated] })
  })

  test.each([
    [bring([{ ...element, id: 'C-1041' }]), 'C-1041 is already the coat shell C-1041. Nothing was imported.'],
    [bring([element, element]), 'C-9 stands in the file twice. Nothing was imported.'],
    [bring([{ ...element, id: 'M-400' }]), 'M-400 stands in the file twice. Nothing was imported.'],
    [
      bring([{ ...element, made: '2027-01' }]),
      'C-9: it was made in 2027-01, which is still to come. Nothing was imported.',
    ],
    [
      bring([{ ...element, issuedTo: 'M-400', issuedOn: TOMORROW }]),
      'C-9: issued on 2026-11-25, which is still to come. Nothing was imported.',
    ],
    [
      bring([{ ...element, issuedTo: 'M-400', issuedOn: '2019-12-31' }]),
      'C-9: made in 2020-01, it cannot have been issued on 2019-12-31. Nothing was imported.',
    ],
    [
      bring([{ ...element, inService: '2019-12-31' }]),
      'C-9: it came into service on 2019-12-31, before it was made in 2020-01. Nothing was imported.',
    ],
    [
      bring([{ ...element, issuedTo: 'M-999' }]),
      'C-9: there is no member or riding position M-999 to issue it to. Nothing was imported.',
    ],
    [
      bring([{ ...element, issuedTo: 'E6-1' }]),
      'C-9: coat shell belongs to a member, not to a riding position. Nothing was imported.',
    ],
    [
      bring([{ id: 'P-9', kind: 'air-pack', issuedTo: 'M-400' }]),
      'P-9: an air pack belongs to a riding position, not to a member. Nothing was imported.',
    ],
    [bring([], []), 'gear.csv holds no rows. Nothing was imported.'],
  ])('an import is all or nothing: %#', (command, words) => {
    given(house).when(command).refuses(words).changesNothing()
  })
})
